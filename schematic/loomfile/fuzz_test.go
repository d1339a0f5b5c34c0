package loomfile

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic/canon"
	"loomwright/schematic/edit"
)

// FuzzRead reads anything: no panic, and what is read writes and reads the same.
// A seed other than 0 changes whole values of the file first.
func FuzzRead(f *testing.F) {
	for _, c := range handFiles {
		f.Add([]byte(c.file), uint64(0))
	}
	samples, err := filepath.Glob("testdata/*.loom.json")
	require.NoError(f, err)
	for i, name := range samples {
		data, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(data, uint64(i))
	}
	m := newMaker(f, 2)
	data, err := Encode(m.doc(f, 2))
	require.NoError(f, err)
	f.Add(data, uint64(1))
	lib := library(f)
	f.Fuzz(func(t *testing.T, data []byte, seed uint64) {
		if seed != 0 {
			data = mutate(data, seed)
		}
		requireLaws(t, data, lib)
	})
}

// FuzzJournal cuts and damages a journal: no panic, and what is left replays as
// a beginning of the steps.
func FuzzJournal(f *testing.F) {
	e := newEdited(f, 11, 30)
	whole, err := os.ReadFile(e.journal.path)
	require.NoError(f, err)
	full, err := readJournal(bytes.NewReader(whole))
	require.NoError(f, err)
	lib := library(f)
	base, err := Load(e.path, lib)
	require.NoError(f, err)

	f.Add(len(whole), 0, byte(0), []byte{})
	f.Add(len(whole)/2, 5, byte(0xff), []byte("tail"))
	f.Add(200, 150, byte(1), []byte("\n"))
	f.Fuzz(func(t *testing.T, cut, at int, flip byte, tail []byte) {
		text := append([]byte(nil), whole[:max(0, min(cut, len(whole)))]...)
		if len(text) > 0 && at >= 0 {
			text[at%len(text)] ^= flip
		}
		r, err := readJournal(bytes.NewReader(append(text, tail...)))
		if err != nil {
			return
		}
		require.LessOrEqual(t, len(r.steps), len(full.steps))
		for i, c := range r.steps {
			a, err := encodeStep(i+1, full.Labels[i], full.steps[i])
			require.NoError(t, err)
			b, err := encodeStep(i+1, r.Labels[i], c)
			require.NoError(t, err)
			require.Equal(t, string(a), string(b))
		}
		_, err = r.Replay(base, lib)
		require.NoError(t, err)
	})
}

// FuzzClip pastes any text.
func FuzzClip(f *testing.F) {
	lib := library(f)
	m := newMaker(f, 2)
	d := m.doc(f, 6)
	text, err := EncodeClip(d, allKeys(d))
	require.NoError(f, err)
	f.Add(text)
	f.Add(`{"format":"loomwright-clip","version":1,"parts":[{"name":"F1","kind":"link"}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		items, err := DecodeClip(text, lib)
		if err != nil {
			return
		}
		tx := edit.Begin(d, nil)
		if edit.Paste(tx, items, d.Sheets()[0].ID, d.Sheets()[0].Area().Min) == nil {
			_, err := Encode(tx.Doc())
			require.NoError(t, err)
		}
		for _, it := range items {
			_, err := canon.Compact(it)
			require.NoError(t, err)
		}
	})
}
