package store

import (
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/nlp"
)

func shelve(t *testing.T, s *Store, hash, title, text string) record.Story {
	t.Helper()
	r := tale
	r.Hash, r.Title, r.Text = hash, title, text
	return must[record.Story](t)(s.AddStory(r))
}

func titles(rs []record.Story) (out []string) {
	for _, r := range rs {
		out = append(out, r.Title)
	}
	return out
}

// Full-text search needs SQLite's FTS5, which is there only when the program is
// built with the tag sqlite_fts5.
func TestFullTextSearchIsBuiltIn(t *testing.T) {
	s := openTest(t)
	require.Equal(t, 1, count(t, s.db(), "SELECT sqlite_compileoption_used('ENABLE_FTS5')"))
	require.Equal(t, 1, count(t, s.db(), "SELECT count(*) FROM pragma_module_list WHERE name = 'fts5'"))
}

func TestSearchStories(t *testing.T) {
	s := openTest(t)
	shelve(t, s, "1", "The Oven", "Grandmother cooked before dawn. The crème was cold.")
	shelve(t, s, "2", "Low Tide", "The oven was far away. A gull cried NEAR the rocks.")
	gone := shelve(t, s, "3", "The Lantern", "A lantern, and nothing else.")
	require.NoError(t, s.Retitle(gone.Meta.ID, "The Lamp"))
	for query, want := range map[string][]string{
		"oven":                      {"The Oven", "Low Tide"}, // in a title it weighs more
		"cooking":                   {"The Oven"},
		"creme":                     {"The Oven"},
		"gull rocks":                {"Low Tide"},
		"gull dawn":                 nil,
		"lan":                       {"The Lamp"},
		"lamp":                      {"The Lamp"},
		`"`:                         {"Low Tide", "The Lamp", "The Oven"},
		"":                          {"Low Tide", "The Lamp", "The Oven"},
		"gull AND":                  nil,
		"near":                      {"Low Tide"},
		`gull" OR title:x`:          nil,
		"title:oven":                nil,
		"it's* (odd) -oven ^ NEAR(": nil,
	} {
		got, err := s.SearchStories(query)
		require.NoError(t, err, query)
		require.Equal(t, want, titles(got), query)
	}
	require.True(t, must[bool](t)(s.RemoveStory(gone.Meta.ID)))
	require.Empty(t, must[[]record.Story](t)(s.SearchStories("lantern")))
}

func FuzzSearchStories(f *testing.F) {
	s, err := Open(f.TempDir(), Options{})
	require.NoError(f, err)
	f.Cleanup(func() { s.Close() })
	_, err = s.AddStory(tale)
	require.NoError(f, err)
	for _, seed := range []string{"loaf", `"`, "a* b", "\x00", "NEAR(a b)", "é ª", "\xff"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, query string) {
		_, err := s.SearchStories(query)
		require.NoError(t, err)
	})
}

func TestATextIsKeptOnce(t *testing.T) {
	s := openTest(t)
	demo := tale
	demo.Demo = true
	first := must[record.Story](t)(s.AddStory(demo))
	require.True(t, first.Demo)
	require.NoError(t, s.TickRead(first.Meta.ID, true))
	require.NoError(t, s.PutAway(first.Meta.ID, true))
	require.True(t, must[record.Story](t)(s.Story(first.Meta.ID)).Away)
	second := must[record.Story](t)(s.AddStory(tale))
	require.Equal(t, first.Meta.ID, second.Meta.ID)
	got := must[record.Story](t)(s.Story(first.Meta.ID))
	require.Equal(t, second, got)
	require.False(t, got.Away)
	require.False(t, got.Demo, "the real household has it too")
	require.Empty(t, got.ReadOn, "an invented guide has read it, the real one has not")
	third := must[record.Story](t)(s.AddStory(demo))
	require.False(t, third.Demo, "the demo household does not take a real story")
}

func TestAStoryThatWasReadStays(t *testing.T) {
	b := laid(t, openTest(t), false)
	require.NoError(t, b.PutAnalysis(b.story.Hash, &nlp.Analysis{Engine: "0.1"}))
	require.False(t, must[bool](t)(b.RemoveStory(b.story.Meta.ID)))
	require.True(t, must[record.Story](t)(b.Store.Story(b.story.Meta.ID)).Away)
	_, err := b.RemoveStory("none")
	require.ErrorIs(t, err, ErrNotFound)

	unread := shelve(t, b.Store, "h2", "x", "A second text.")
	require.NoError(t, b.PutAnalysis("h2", &nlp.Analysis{Engine: "0.1"}))
	require.True(t, must[bool](t)(b.RemoveStory(unread.Meta.ID)))
	_, err = b.Analysis("h2", "0.1")
	require.ErrorIs(t, err, ErrNotFound)
	must[*nlp.Analysis](t)(b.Analysis(b.story.Hash, "0.1"))
}

func TestTheTickCanBeTakenAway(t *testing.T) {
	b := laid(t, openTest(t), false)
	require.NoError(t, b.TickRead(b.story.Meta.ID, true))
	require.Equal(t, b.Today(), must[record.Story](t)(b.Store.Story(b.story.Meta.ID)).ReadOn)
	require.NoError(t, b.TickRead(b.story.Meta.ID, false))
	require.Empty(t, must[record.Story](t)(b.Store.Story(b.story.Meta.ID)).ReadOn)
}
