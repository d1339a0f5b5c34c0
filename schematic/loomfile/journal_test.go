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
	e.saved, err = Load(e.path, e.lib)
	require.NoError(t, err)
	e.session = edit.NewSession(e.saved, nil, m.id)
	e.journal, err = NewJournal(e.path)
	require.NoError(t, err)
	e.session.Journal = e.journal.Append
	for range steps {
		e.step(t, m)
	}
	return e
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
	switch m.IntN(6) {
	case 0:
		err = e.session.Undo()
	case 1:
		err = e.session.Redo()
	case 2:
		err = e.session.Do("note", func(tx *edit.Tx) error {
			tx.Put(&schematic.Note{ID: tx.NewID(), Sheet: tx.Doc().Sheets()[0].ID, Text: m.text(), Extra: m.extra()})
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
	d, err := r.Apply(base)
	require.NoError(t, err)
	return r, d
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
	text, err := os.ReadFile(e.path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(e.path, append(text, '\n'), 0o600))
	r, err := Recover(e.path)
	require.NoError(t, err)
	assert.False(t, r.Fits)

	require.NoError(t, os.Remove(e.path))
	r, err = Recover(e.path)
	require.NoError(t, err)
	assert.False(t, r.Fits)
	_, err = r.Apply(schematic.New(e.lib))
	assert.ErrorIs(t, err, edit.ErrMismatch, "what does not fit fails whole")
}

func TestUntitledDrawing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "untitled.loom.json")
	j, err := NewJournal(path)
	require.NoError(t, err)
	s := edit.NewSession(schematic.New(nil), nil, nil)
	s.Journal = j.Append
	require.NoError(t, s.Do("sheet", func(tx *edit.Tx) error {
		tx.Put(&schematic.Sheet{ID: tx.NewID(), Name: "1"})
		return nil
	}))
	r, err := Recover(path)
	require.NoError(t, err)
	assert.True(t, r.Fits, "a file that is not there is an empty document")
	d, err := r.Apply(schematic.New(nil))
	require.NoError(t, err)
	sameText(t, s.Doc(), d)
	require.NoError(t, r.Remove())
}

func TestContinueAfterACrash(t *testing.T) {
	e := newEdited(t, 7, 20)
	m := newMaker(t, 70)
	require.NoError(t, e.journal.Close())
	whole, err := os.ReadFile(e.journal.path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(e.journal.path, append(whole, "0bad line torn by a cra"...), 0o600))

	r, d := recovered(t, e)
	assert.Equal(t, 1, r.Lost)
	j, err := r.Continue()
	require.NoError(t, err)
	e.session = edit.NewSession(d, nil, m.id)
	e.session.Journal, e.journal = j.Append, j
	for range 20 {
		e.step(t, m)
	}
	again, d2 := recovered(t, e)
	assert.Zero(t, again.Lost)
	assert.Greater(t, len(again.Labels), len(r.Labels))
	sameText(t, e.session.Doc(), d2)
}

func TestJournalLeftBehindIsNotOverwritten(t *testing.T) {
	e := newEdited(t, 8, 20)
	other, err := NewJournal(e.path)
	require.NoError(t, err)
	assert.ErrorContains(t, other.Append("x", edit.Change{}), "open in another window")
	r, _ := recovered(t, e)
	assert.NotEmpty(t, r.Labels)
}

func TestForeignJournals(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.loom.json")
	for _, c := range []struct{ name, text, err string }{
		{"nothing", "", ""},
		{"garbage", strings.Repeat("garbage\n", 1000), ""},
		{"other format", string(sealed([]byte(`{"format":"x","version":1,"file":""}`))), `the journal is "x" version 1`},
		{"newer", string(sealed([]byte(`{"format":"loomwright-journal","version":2,"file":""}`))), "version 2"},
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
		_, err = r.Continue()
		assert.ErrorContains(t, err, "holds nothing that can be read", c.name)
	}
}

func TestBrokenStepsAreLost(t *testing.T) {
	head := sealed([]byte(`{"format":"loomwright-journal","version":1,"file":"none"}`))
	for _, text := range []string{
		`{"step":2,"label":"x","items":[]}`, `{"step":1,"label":"x","items":[{"type":"part"}]}`, `[]`,
		`{"step":1,"label":"x","items":[{"type":"thing","after":{}}]}`, `{"step":1,"label":"x","items":[{"type":"part","after":{"id":7}}]}`,
		`{"step":1,"label":"x","items":[{"type":"note","before":{"id":"0f8fad5b-d9cb-469f-a165-70867728950e"},"after":{"id":"0f8fad5b-d9cb-469f-a165-70867728950f"}}]}`,
	} {
		r, err := readJournal(bytes.NewReader(append(head, sealed([]byte(text))...)), "none")
		require.NoError(t, err)
		assert.Equal(t, 1, r.Lost, text)
		assert.Empty(t, r.steps)
		assert.True(t, r.Fits)
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
