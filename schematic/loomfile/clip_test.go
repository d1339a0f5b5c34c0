package loomfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

func allKeys(d *schematic.Doc) []schematic.Key {
	var keys []schematic.Key
	for it := range d.All() {
		switch it.(type) {
		case *schematic.Part, *schematic.Wire, *schematic.Note:
			keys = append(keys, it.Key())
		}
	}
	return keys
}

func TestClipCarriesTheSelection(t *testing.T) {
	for seed := range uint64(40) {
		m := newMaker(t, seed)
		d := m.doc(t, 12)
		keys := allKeys(d)
		m.Shuffle(len(keys), func(i, j int) { keys[i], keys[j] = keys[j], keys[i] })
		keys = keys[:m.IntN(len(keys)+1)]

		text, err := EncodeClip(d, keys)
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(text, "{\n  \"format\": \"loomwright-clip\",\n  \"version\": 1"))
		got, err := DecodeClip(text, m.lib)
		require.NoError(t, err, "seed %d\n%s", seed, text)
		want := map[schematic.Key]schematic.Item{}
		for _, it := range edit.Clip(d, keys) {
			want[it.Key()] = it
		}
		require.Len(t, got, len(want), "seed %d", seed)
		for _, it := range got {
			a, err := canon.Compact(want[it.Key()])
			require.NoError(t, err)
			b, err := canon.Compact(it)
			require.NoError(t, err)
			assert.Equal(t, string(a), string(b))
		}
	}
}

func TestClipGoesToAnotherDrawing(t *testing.T) {
	from, err := Decode([]byte(handFiles[0].file), library(t))
	require.NoError(t, err)
	text, err := EncodeClip(from, allKeys(from))
	require.NoError(t, err)

	sheet := &schematic.Sheet{ID: DeriveID(schematic.TypeSheet, "other"), Name: "other"}
	other := schematic.New(from.Library()).With(schematic.Put{Key: sheet.Key(), Item: sheet})
	items, err := DecodeClip(text, other.Library())
	require.NoError(t, err)
	tx := edit.Begin(other, nil)
	require.NoError(t, edit.Paste(tx, items, sheet.ID, geom.Pt(100, 100)))
	assert.Empty(t, schematic.Check(tx.Doc()))
	assert.Equal(t, from.Len(schematic.TypePart), tx.Doc().Len(schematic.TypePart))
	assert.Equal(t, from.Len(schematic.TypeWire), tx.Doc().Len(schematic.TypeWire))
	_, err = Encode(tx.Doc())
	assert.NoError(t, err, "what was pasted can be saved")
}

func TestForeignClips(t *testing.T) {
	head := `{"format":"loomwright-clip","version":1,`
	id := `"0f8fad5b-d9cb-469f-a165-70867728950e"`
	for _, text := range []string{"", "hello", `{"a":1}`, "loomwright-clip is a word", `{"format":"loomwright-clip"`} {
		_, err := DecodeClip(text, nil)
		assert.ErrorIs(t, err, ErrNoClip, "%q", text)
	}
	for text, want := range map[string]string{
		`{"format":"other loomwright-clip","version":1}`:                        "this is not a clip",
		`{"format":"loomwright-clip","version":2}`:                              "update the program",
		head + `"parts":[null]}`:                                                "an item of the list should stand here",
		head + `"parts":[{"name":"F1","kind":"link","mate":` + id + `}]}`:       "the part ",
		head + `"wires":[{"sheet":` + id + `,"name":"W1","a":"F1.1"}]}`:         `there is no part "F1"`,
		head + `"parts":[{"name":"F1","kind":"link"},{"name":"F1"}]}`:           "same ID as part F1",
		head + `"parts":[{"name":"F1","kind":"link","build":"nonsense"}]}`:      "not a build step",
		head + `"notes":[{"sheet":` + id + `,"at":[0,0],"text":"","size":-1}]}`: "not a size",
	} {
		_, err := DecodeClip(text, library(t))
		assert.ErrorContains(t, err, want, text)
	}
}
