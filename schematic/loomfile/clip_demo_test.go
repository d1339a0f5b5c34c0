package loomfile_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// TestClipOfSeveralSheets: the demo, copied whole, comes whole into another
// drawing, on sheets of the same names.
func TestClipOfSeveralSheets(t *testing.T) {
	from := openDemo(t)
	var keys []schematic.Key
	for it := range from.All() {
		keys = append(keys, it.Key())
	}
	on := edit.SheetsOf(from, keys, schematic.ID{})
	require.Greater(t, len(on), 1)
	text, err := loomfile.EncodeClip(from, keys, on...)
	require.NoError(t, err)

	sheet := &schematic.Sheet{ID: loomfile.DeriveID(schematic.TypeSheet, "other"), Name: "other"}
	items, err := loomfile.DecodeClip(text, from.Library())
	require.NoError(t, err)
	tx := edit.Begin(schematic.New(from.Library()).With(schematic.Put{Key: sheet.Key(), Item: sheet}), nil)
	require.NoError(t, edit.Paste(tx, items, sheet.ID, geom.Point{}))
	assert.Empty(t, schematic.Check(tx.Doc()))
	assert.Len(t, tx.Doc().Sheets(), len(on), "one of them lies on the sheet in sight")
	loose := func(d *schematic.Doc) (n int) {
		for w := range d.Wires() {
			if w.A.Loose() || w.B.Loose() {
				n++
			}
		}
		return n
	}
	assert.Equal(t, from.Len(schematic.TypePart), tx.Doc().Len(schematic.TypePart))
	assert.Equal(t, from.Len(schematic.TypeWire), tx.Doc().Len(schematic.TypeWire))
	assert.Equal(t, loose(from), loose(tx.Doc()))
}
