//go:build window

package main

import (
	"image"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// drag presses the left button at a, goes to b and lets go, then lets the
// pointer rest.
func (h *hand) drag(a, b image.Point) {
	h.t.Helper()
	xy := func(p image.Point) []string { return []string{strconv.Itoa(p.X), strconv.Itoa(p.Y)} }
	h.do(append([]string{"mousemove"}, xy(a)...)...)
	h.do("mousedown", "1")
	h.do(append([]string{"mousemove"}, xy(a.Add(b).Div(2))...)...)
	h.do(append([]string{"mousemove"}, xy(b)...)...)
	h.do("mouseup", "1")
	h.do(append([]string{"mousemove"}, xy(h.rest)...)...)
}

// TestManyThingsByHand selects with the marquee and works on all of it: moves,
// locks, copies to another sheet, undoes.
func TestManyThingsByHand(t *testing.T) {
	const drawing = "pickup" + loomfile.Ext
	program := build(t)
	file, before, lib := copyOf(t, t.TempDir(), drawing)
	load := func() *schematic.Doc {
		d, err := loomfile.Load(file, lib)
		require.NoError(t, err)
		return d
	}
	first := load()
	sheet := first.Sheets()[0]
	size := sheet.Area().Max

	h := start(t, program, file)
	h.waitTitle(drawing, false)
	h.answer(1, 0) // the caution of the first start
	shown := h.waitSheet()
	save := func() *schematic.Doc {
		h.waitTitle(drawing, true)
		h.key("ctrl+s")
		h.waitTitle(drawing, false)
		return load()
	}
	undo := func(steps int) {
		for range steps {
			h.key("ctrl+z")
		}
		save()
		require.Equal(t, string(before), string(read(t, file)), "undone and saved, the file is as it was, byte for byte")
	}
	moved := func(d *schematic.Doc, by geom.Point) (n int) {
		for p := range first.Parts() {
			if now := d.Part(p.ID); len(p.Views) > 0 && now.Views[0].At == p.Views[0].At.Add(by) {
				n++
			}
		}
		return n
	}

	// To the left, the marquee takes what it touches; four arrow steps down.
	h.drag(spot(shown, size, geom.Pt(size.X*9/20, size.Y*9/10)), spot(shown, size, geom.Pt(size.X/40, size.Y/40)))
	h.key("shift+Down")
	d := save()
	n := moved(d, geom.Pt(0, 100))
	require.Greater(t, n, 3, "what the marquee touched has moved")
	require.Greater(t, moved(d, geom.Point{}), n, "the rest has not")

	// What is locked is not deleted: the program says so.
	h.key("ctrl+l")
	d = save()
	locked := 0
	for p := range d.Parts() {
		if p.Locked {
			locked++
		}
	}
	require.Equal(t, n, locked)
	h.key("Delete")
	h.answer(1, 0)
	h.waitSheet()
	h.waitTitle(drawing, false)
	undo(2)

	// All of a sheet goes to the next one, to the same places.
	h.key("ctrl+a", "ctrl+c", "ctrl+Next", "ctrl+shift+v")
	d = save()
	require.Greater(t, d.Len(schematic.TypePart), first.Len(schematic.TypePart)+5)
	second := d.Sheets()[1].ID
	there := map[geom.Point]bool{}
	for p := range d.Parts() {
		for _, v := range p.Views {
			there[v.At] = there[v.At] || v.Sheet == second
		}
	}
	for p := range first.Parts() {
		for _, v := range p.Views {
			require.True(t, v.Sheet != sheet.ID || there[v.At], "%s lies at %v on the second sheet too", p.Name, v.At)
		}
	}
	undo(1)
	h.key("ctrl+w")
	require.NoError(t, h.waitEnd())
}
