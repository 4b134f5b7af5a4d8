package say

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

func TestEmbeddedCatalogueLoads(t *testing.T) {
	require.NotEmpty(t, English().Keys())
	require.Equal(t, "Feltpage", T("name.program"))
}

func TestSayFillsSlotsAndShowsMissingKeys(t *testing.T) {
	c, err := Load(fstest.MapFS{"en/a.txt": {Data: []byte("# c\nhi = Hello {name}.\\nNice {day}\n")}}, "en")
	require.NoError(t, err)
	require.Equal(t, "Hello Moss.\nNice {day}", c.Say("hi", map[string]string{"name": "Moss"}))
	require.Equal(t, []string{"name", "day"}, c.Slots("hi"))
	require.Equal(t, "[gone]", c.Say("gone", nil))
}

func TestLoadRefusesDoubledAndBrokenLines(t *testing.T) {
	_, err := Load(fstest.MapFS{"en/a.txt": {Data: []byte("a = 1\n")}, "en/b.txt": {Data: []byte("a = 2\n")}}, "en")
	require.ErrorContains(t, err, "en/b.txt:1")
	_, err = Load(fstest.MapFS{"en/a.txt": {Data: []byte("nonsense\n")}}, "en")
	require.ErrorContains(t, err, "en/a.txt:1")
}
