package action

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func sample() *Set {
	var s Set
	n := func() {}
	s.Add(
		&Action{ID: "file.open", Title: "Open…", Menu: "File", Keys: []Key{C("O")}, Run: n},
		&Action{ID: "edit.undo", Title: "Undo", Menu: "Edit", Keys: []Key{C("Z")}, Run: n, Label: func() string { return "Undo move" }},
		&Action{ID: "view.dark", Title: "Dark theme", Menu: "View/Theme", Words: "night slate", Run: n},
		&Action{ID: "view.light", Title: "Light theme", Menu: "View/Theme", Words: "day paper", Run: n},
		&Action{ID: "file.save", Title: "Save", Menu: "File", Keys: []Key{C("S")}, Run: n},
		&Action{ID: "nudge", Title: "Move left", Keys: []Key{K("Left")}, Run: n},
	)
	return &s
}

func TestMenusFollowTheRegister(t *testing.T) {
	m := sample().Menus()
	require.Len(t, m, 3)
	assert.Equal(t, "File", m[0].Title)
	require.Len(t, m[0].Entries, 2, "actions of one menu come together, wherever they were added")
	assert.Equal(t, "file.save", m[0].Entries[1].Action.ID)
	require.Len(t, m[2].Entries, 1)
	assert.Equal(t, "Theme", m[2].Entries[0].Sub.Title)
	assert.Len(t, m[2].Entries[0].Sub.Entries, 2)
}

func TestSearch(t *testing.T) {
	s := sample()
	for _, c := range []struct{ text, first, why string }{
		{"sav", "file.save", "start of the title"},
		{"dark", "view.dark", "title"},
		{"night", "view.dark", "search word"},
		{"the li", "view.light", "every word counts, in any order"},
		{"undo mov", "edit.undo", "the title of the moment counts"},
		{"drktm", "view.dark", "letters may be left out"},
	} {
		got := s.Search(c.text)
		require.NotEmpty(t, got, c.text)
		assert.Equal(t, c.first, got[0].ID, c.why)
	}
	s.Add(&Action{ID: "help.one", Title: "About one", Menu: "Help", Enabled: func() bool { return false }, Run: func() {}},
		&Action{ID: "help.two", Title: "About two", Menu: "Help", Run: func() {}})
	assert.Equal(t, "help.two", s.Search("about")[0].ID, "of equals the one that can run")
	assert.Empty(t, s.Search("zebra"))
	assert.Len(t, s.Search("  "), 8)
}

func TestCheckFindsMistakes(t *testing.T) {
	s := sample()
	require.NoError(t, s.Check())
	s.Add(&Action{ID: "other", Title: "Other", Keys: []Key{C("S")}, Run: func() {}})
	assert.ErrorContains(t, s.Check(), "Ctrl+S stands for both \"file.save\" and \"other\"")
	s.Add(&Action{ID: "file.open", Title: "Again", Run: func() {}}, &Action{ID: "none", Title: "No deed"})
	assert.ErrorContains(t, s.Check(), "registered twice")
	assert.ErrorContains(t, s.Check(), "\"none\"")
}

func TestDoAsksFirst(t *testing.T) {
	ran, may := 0, false
	a := &Action{ID: "a", Title: "A", Enabled: func() bool { return may }, Run: func() { ran++ }}
	assert.False(t, a.Do())
	may = true
	assert.True(t, a.Do())
	assert.Equal(t, 1, ran)
}

func TestKeys(t *testing.T) {
	assert.Equal(t, "Ctrl+Shift+S", CS("S").String())
	assert.Equal(t, "Alt+Shift+←", Key{Alt | Shift, "Left"}.String())
	assert.Equal(t, "Esc", K("Escape").String())
	s := sample()
	assert.Equal(t, "file.save", s.ForKey(C("S")).ID)
	assert.Nil(t, s.ForKey(C("Q")))
}

func TestKeysAsText(t *testing.T) {
	for _, k := range []Key{C("S"), CS("Left"), {Alt | Shift, "F4"}, K("PageDown"), {Ctrl | Alt | Shift, "Plus"}} {
		back, err := ParseKey(k.Text())
		require.NoError(t, err)
		assert.Equal(t, k, back)
	}
	for _, bad := range []string{"", "Ctrl+", "Ctrl+A+B", "two words"} {
		_, err := ParseKey(bad)
		assert.Error(t, err, bad)
	}
}

func TestRebind(t *testing.T) {
	s := sample()
	assert.EqualError(t, s.Free(C("S"), "file.open"), `Ctrl+S stands for "Save"`)
	assert.NoError(t, s.Free(C("S"), "file.save"), "its own")
	assert.NoError(t, s.Free(C("K"), "file.open"))
	assert.Error(t, s.Free(K("Escape"), "file.open"))
	assert.Error(t, s.Free(K("LeftShift"), "file.open"), "a modifier alone")

	s.Rebind("file.open", C("S"))
	assert.Equal(t, "file.open", s.ForKey(C("S")).ID)
	assert.Empty(t, s.Find("file.save").Keys, "taken away")
	assert.Nil(t, s.ForKey(C("O")))
	require.NoError(t, s.Check())
	assert.Equal(t, map[string][]Key{"file.open": {C("S")}, "file.save": {}}, s.Changed())
	s.Rebind("file.save", s.Delivered(s.Find("file.save"))...)
	s.Rebind("file.open", s.Delivered(s.Find("file.open"))...)
	assert.Empty(t, s.Changed(), "as delivered again")
	s.Rebind("no such action", C("K"))
	assert.Nil(t, s.ForKey(C("K")))
}
