package loomfile

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// edited is a saved file, a session on it with a journal, and some steps.
type edited struct {
	path    string
	lib     *schematic.Library
	saved   *schematic.Doc
	session *edit.Session
	journal *Journal
}

func newEdited(t testing.TB, seed uint64, steps int) *edited {
	t.Helper()
	m := newMaker(t, seed)
	e := &edited{path: filepath.Join(t.TempDir(), "a.loom.json"), lib: m.lib}
	require.NoError(t, Save(e.path, m.doc(t, 10)))
	var err error
	var stamp Stamp
	e.saved, stamp, err = LoadStamped(e.path, e.lib)
	require.NoError(t, err)
	e.session = edit.NewSession(e.saved, nil, m.id)
	e.journal = journalFor(t, e.path, stamp, e.saved)
	e.session.Journal = e.journal.Append
	for range steps {
		e.step(t, m)
	}
	return e
}

// journalFor prepares the journal beside a file.
func journalFor(t testing.TB, path string, s Stamp, d *schematic.Doc) *Journal {
	t.Helper()
	base, err := NewBase(path, s, d)
	require.NoError(t, err)
	return NewJournal(JournalPath(path), base)
}

// step makes one random change: of a field, of the settings, a new item, a
// deletion, an undo or a redo.
func (e *edited) step(t testing.TB, m *maker) {
	t.Helper()
	var parts []*schematic.Part
	for p := range e.session.Doc().Parts() {
		parts = append(parts, p)
	}
	var err error
	switch m.IntN(7) {
	case 0:
		err = e.session.Undo()
	case 1:
		err = e.session.Redo()
	case 2:
		err = e.session.Do("note", func(tx *edit.Tx) error {
			tx.Put(&schematic.Note{ID: tx.NewID(), Sheet: tx.Doc().Sheets()[0].ID, Text: m.text(), Extra: m.extra()})
			return nil
		})
	case 6:
		err = e.session.Do("accept", func(tx *edit.Tx) error {
			tx.Put(&schematic.Acceptance{ID: tx.NewID(), Rule: "wire size", Detail: m.text(), Reason: "known"})
			return nil
		})
	case 3:
		err = e.session.Do("title", func(tx *edit.Tx) error {
			i := *tx.Doc().Info()
			i.Title = m.text()
			// Empty is not nil: the journal must not mind.
			i.Limits, i.Links = map[string]float64{}, []schematic.Link{}
			tx.Put(&i)
			return nil
		})
	case 4:
		err = e.session.Do("delete", func(tx *edit.Tx) error {
			for w := range tx.Doc().Wires() {
				if tx.Doc().Len(schematic.TypeGroup) > 0 {
					for g := range tx.Doc().Groups() {
						if g.Drain == w.ID {
							return nil
						}
					}
				}
				tx.Delete(w.Key())
				return nil
			}
			return nil
		})
	default:
		err = e.session.Do("label", func(tx *edit.Tx) error {
			tx.EditPart(pick(m, parts...).ID, func(p *schematic.Part) { p.Label, p.Values = m.text(), m.values() })
			return nil
		})
	}
	require.NoError(t, err)
}

func recovered(t testing.TB, e *edited) (*Recovery, *schematic.Doc) {
	t.Helper()
	r, err := Recover(e.path)
	require.NoError(t, err)
	require.NotNil(t, r)
	base, err := Load(e.path, e.lib)
	require.NoError(t, err)
	out, err := r.Replay(base, e.lib)
	require.NoError(t, err)
	require.NoError(t, r.Close())
	return r, out.Doc
}

// sameText compares what would be saved.
func sameText(t testing.TB, want, got *schematic.Doc) {
	t.Helper()
	a, err := Encode(want)
	require.NoError(t, err)
	b, err := Encode(got)
	require.NoError(t, err)
	require.Equal(t, string(a), string(b))
}

func TestReplayEndsAtWhatTheUserSaw(t *testing.T) {
	for seed := range uint64(30) {
		e := newEdited(t, seed, 40)
		require.NoError(t, e.journal.Close())
		r, d := recovered(t, e)
		assert.True(t, r.Fits)
		assert.Zero(t, r.Lost)
		assert.NotEmpty(t, r.Labels)
		sameText(t, e.session.Doc(), d)
	}
}

func TestNoStepsNoJournal(t *testing.T) {
	e := newEdited(t, 1, 0)
	r, err := Recover(e.path)
	require.NoError(t, err)
	assert.Nil(t, r)
	require.NoError(t, e.journal.Remove())
	require.NoError(t, e.journal.Close())
}

func TestRemove(t *testing.T) {
	e := newEdited(t, 1, 20)
	require.NoError(t, e.journal.Remove())
	require.NoError(t, e.journal.Remove(), "twice is no mistake")
	onlyFiles(t, filepath.Dir(e.path), "a.loom.json")
}

func TestTornLineIsDropped(t *testing.T) {
	e := newEdited(t, 4, 25)
	whole, err := os.ReadFile(e.journal.path)
	require.NoError(t, err)
	lines := bytes.SplitAfter(bytes.TrimSuffix(whole, []byte("\n")), []byte("\n"))
	last := len(lines[len(lines)-1])
	before, _ := recovered(t, e)
	steps := len(before.Labels)
	for _, cut := range []int{1, 2, last / 2, last - 1, last} {
		require.NoError(t, os.WriteFile(e.journal.path, whole[:len(whole)-cut], 0o600))
		r, _ := recovered(t, e)
		assert.Len(t, r.Labels, steps-1)
		assert.Equal(t, min(1, last+1-cut), r.Lost+boolInt(cut == last+1))
	}
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

func TestDamageEndsTheReplay(t *testing.T) {
	e := newEdited(t, 5, 30)
	whole, err := os.ReadFile(e.journal.path)
	require.NoError(t, err)
	lines := bytes.SplitAfter(whole, []byte("\n"))
	lines = lines[:len(lines)-1]
	lines[4] = bytes.Replace(lines[4], []byte(`"label"`), []byte(`"lable"`), 1)
	require.NoError(t, os.WriteFile(e.journal.path, bytes.Join(lines, nil), 0o600))
	r, _ := recovered(t, e)
	assert.Len(t, r.Labels, 3, "the header and three whole steps")
	assert.Equal(t, len(lines)-4, r.Lost)
}

func TestChangedFileIsReported(t *testing.T) {
	e := newEdited(t, 6, 20)
	require.NoError(t, e.journal.Close())
	text, err := os.ReadFile(e.path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(e.path, append(text, '\n'), 0o600))
	r, err := Recover(e.path)
	require.NoError(t, err)
	assert.False(t, r.Fits)
	out, err := r.Replay(e.saved, e.lib)
	require.NoError(t, err)
	assert.False(t, out.Older, "a line more changes nothing the steps touch")
	require.NoError(t, r.Close())

	require.NoError(t, os.Remove(e.path))
	r, err = Recover(e.path)
	require.NoError(t, err)
	assert.False(t, r.Fits)
	for _, now := range []*schematic.Doc{nil, schematic.New(e.lib)} {
		out, err = r.Replay(now, e.lib)
		require.NoError(t, err)
		assert.True(t, out.Older)
		assert.NotEmpty(t, out.Steps)
		sameText(t, e.session.Doc(), out.Doc)
		sameText(t, e.saved, out.From)
	}
	_, was, err := load(e.path, e.lib)
	require.Error(t, err)
	assert.True(t, was.None())
	assert.False(t, r.Stamp().None(), "saving must ask before it replaces what is there by then")
}

func TestUntitledDrawing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "untitled-1.journal")
	begun := schematic.New(nil)
	base, err := NewBase("", Stamp{}, begun)
	require.NoError(t, err)
	j := NewJournal(path, base)
	s := edit.NewSession(begun, nil, nil)
	s.Journal = j.Append
	require.NoError(t, s.Do("sheet", func(tx *edit.Tx) error {
		tx.Put(&schematic.Sheet{ID: tx.NewID(), Name: "1"})
		return nil
	}))
	require.NoError(t, j.Close())
	r, err := RecoverFrom(path)
	require.NoError(t, err)
	assert.True(t, r.Fits)
	assert.Empty(t, r.Path)
	out, err := r.Replay(nil, nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"sheet"}, out.Steps)
	sameText(t, s.Doc(), out.Doc)
	require.NoError(t, r.Remove())
	onlyFiles(t, filepath.Dir(path))
}

// TestGoOnAfterACrash: the session that brings the steps back has a journal of
// its own, which takes the place of the one left behind in one move.
func TestGoOnAfterACrash(t *testing.T) {
	e := newEdited(t, 7, 20)
	m := newMaker(t, 70)
	require.NoError(t, e.journal.Close())
	whole, err := os.ReadFile(e.journal.path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(e.journal.path, append(whole, "0bad line torn by a cra"...), 0o600))

	r, err := Recover(e.path)
	require.NoError(t, err)
	assert.Equal(t, 1, r.Lost)
	base, stamp, err := LoadStamped(e.path, e.lib)
	require.NoError(t, err)
	out, err := r.Replay(base, e.lib)
	require.NoError(t, err)
	b, err := NewBase(e.path, stamp, base)
	require.NoError(t, err)
	e.journal = r.Replace(b)
	e.session = edit.NewSession(base, nil, m.id)
	e.session.Journal = e.journal.Append
	still, err := os.ReadFile(r.at)
	require.NoError(t, err)
	assert.Equal(t, len(whole)+23, len(still), "until the first step the old one stays")
	change := edit.Diff(base, out.Doc)
	require.NoError(t, e.session.Do("bring back", func(tx *edit.Tx) error {
		for _, k := range change.Keys() {
			if after := change[k].After; after != nil {
				tx.Put(after)
			} else {
				tx.Delete(k)
			}
		}
		return nil
	}))
	require.NoError(t, r.Close())
	for range 20 {
		e.step(t, m)
	}
	again, d2 := recovered(t, e)
	assert.Zero(t, again.Lost)
	assert.Equal(t, "bring back", again.Labels[0])
	sameText(t, e.session.Doc(), d2)
	onlyFiles(t, filepath.Dir(e.path), "a.loom.json", "a.loom.json.journal")
}

func TestJournalLeftBehindIsNotOverwritten(t *testing.T) {
	e := newEdited(t, 8, 20)
	other := journalFor(t, e.path, Stamp{}, e.saved)
	assert.ErrorContains(t, other.Append("x", edit.Change{}), "open in another window")
	r, _ := recovered(t, e)
	assert.NotEmpty(t, r.Labels)
	assert.True(t, r.InUse, "and whoever looks for one left behind can tell")
	require.NoError(t, e.journal.Close())
	r, err := Recover(e.path)
	require.NoError(t, err)
	assert.False(t, r.InUse)
	second, err := Recover(e.path)
	require.NoError(t, err)
	assert.True(t, second.InUse, "two windows do not recover from one journal at once")
	require.NoError(t, second.Close())
	require.NoError(t, r.Close())
}

func TestForeignJournals(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.loom.json")
	for _, c := range []struct{ name, text, err string }{
		{"nothing", "", ""},
		{"garbage", strings.Repeat("garbage\n", 1000), ""},
		{"other format", string(sealed([]byte(`{"format":"x","version":1,"file":""}`))), `the journal is "x" version 1`},
		{"newer", string(sealed([]byte(`{"format":"loomwright-journal","version":3,"file":""}`))), "version 3"},
		{"other fields", string(sealed([]byte(`{"format":"loomwright-journal","version":1,"file":"","more":1}`))), "no such field"},
	} {
		require.NoError(t, os.WriteFile(JournalPath(path), []byte(c.text), 0o600))
		r, err := Recover(path)
		if c.err != "" {
			assert.ErrorContains(t, err, c.err, c.name)
			continue
		}
		require.NoError(t, err, c.name)
		assert.Empty(t, r.Labels)
		require.NoError(t, r.Close())
	}
}

func TestBrokenStepsAreLost(t *testing.T) {
	head := sealed([]byte(`{"format":"loomwright-journal","version":1,"file":"none"}`))
	for _, text := range []string{
		`{"step":2,"label":"x","items":[]}`, `{"step":1,"label":"x","items":[{"type":"part"}]}`, `[]`,
		`{"step":1,"label":"x","items":[{"type":"thing","after":{}}]}`, `{"step":1,"label":"x","items":[{"type":"part","after":{"id":7}}]}`,
		`{"step":1,"label":"x","items":[{"type":"note","before":{"id":"0f8fad5b-d9cb-469f-a165-70867728950e"},"after":{"id":"0f8fad5b-d9cb-469f-a165-70867728950f"}}]}`,
	} {
		r, err := readJournal(bytes.NewReader(append(head, sealed([]byte(text))...)))
		require.NoError(t, err)
		assert.Equal(t, 1, r.Lost, text)
		assert.Empty(t, r.steps)
	}
}

func TestFailedAppendIsNoStep(t *testing.T) {
	e := newEdited(t, 9, 20)
	good, steps := e.journal.f, e.journal.step
	readOnly, err := os.Open(e.journal.path)
	require.NoError(t, err)
	defer readOnly.Close()
	e.journal.f = readOnly
	require.Error(t, e.journal.Append("lost", edit.Change{}))
	e.journal.f = good
	require.NoError(t, e.journal.Append("kept", edit.Change{}))
	r, _ := recovered(t, e)
	require.Len(t, r.Labels, steps+1)
	assert.Equal(t, "kept", r.Labels[steps])

	e.journal.size = maxJournal
	assert.ErrorContains(t, e.journal.Append("more", edit.Change{}), "is full: save the drawing")
}

func BenchmarkAppend(b *testing.B) {
	e := newEdited(b, 1, 20)
	var c edit.Change
	e.session.Journal = func(_ string, change edit.Change) error {
		c = change
		return nil
	}
	m := newMaker(b, 3)
	for c == nil {
		e.step(b, m)
	}
	for b.Loop() {
		if err := e.journal.Append("step", c); err != nil {
			b.Fatal(err)
		}
	}
}
