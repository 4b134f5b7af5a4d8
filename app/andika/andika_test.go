package andika

import (
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
)

// The name table of each file is the outside word on what it is.
func TestFacesAreAndikaUnderItsLicence(t *testing.T) {
	for sub, b := range map[string][]byte{"Regular": Regular, "Bold": Bold, "Italic": Italic} {
		f, err := sfnt.Parse(b)
		require.NoError(t, err)
		var buf sfnt.Buffer
		family, err := f.Name(&buf, sfnt.NameIDFamily)
		require.NoError(t, err)
		require.Equal(t, "Andika", family)
		style, err := f.Name(&buf, sfnt.NameIDSubfamily)
		require.NoError(t, err)
		require.Equal(t, sub, style)
		version, err := f.Name(&buf, sfnt.NameIDVersion)
		require.NoError(t, err)
		require.Contains(t, version, "6.101")
	}
	require.Contains(t, Licence, "SIL OPEN FONT LICENSE Version 1.1")
	require.Contains(t, Licence, "Reserved Font Names")
}
