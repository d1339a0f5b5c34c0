package ui

import (
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/sample"
)

// What the table of wires costs at 10 000 wires: made anew after an edit, and
// told of another selection.
func BenchmarkTableOfWires(b *testing.B) {
	lib, err := catalog.Default()
	require.NoError(b, err)
	app := test.NewApp()
	p, err := newProgram(app, lib, "", inline(), time.Now)
	require.NoError(b, err)
	ed := newEditor(p, Options{Library: lib})
	ed.begin(sample.Harness(lib, 10_000, 1), openFile{})
	ed.drawer.open(wiresTab)
	t := ed.drawer.wires
	t.refresh()
	var wires []schematic.Key
	for w := range ed.doc().Wires() {
		wires = append(wires, w.Key())
	}
	b.Run("anew", func(b *testing.B) {
		for b.Loop() {
			t.refresh()
		}
	})
	b.Run("selection", func(b *testing.B) {
		i := 0
		for b.Loop() {
			i++
			ed.sess.Select(wires[i%len(wires)])
			t.selectionChanged()
		}
	})
	b.Run("sorted by current", func(b *testing.B) {
		t.view.Sorted, t.view.By = true, t.table.At("current")
		for b.Loop() {
			t.arrange()
		}
	})
}
