package tool

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// BenchmarkGuides is what a drag costs on a full sheet beside its preview: once
// at its start, and with every move of the pointer.
func BenchmarkGuides(b *testing.B) {
	w := newWindow(b)
	if err := w.sess.Do("draw", func(tx *edit.Tx) error {
		for i := range 1000 {
			if err := edit.PlacePart(tx, "fuse", w.sheet, geom.Pt(100+i%40*100, 100+i/40*125), geom.Orient{}); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		b.Fatal(err)
	}
	var keys []schematic.Key
	for p := range w.Doc().Parts() {
		if keys = append(keys, p.Key()); len(keys) == 20 {
			break
		}
	}
	b.Run("start", func(b *testing.B) {
		for b.Loop() {
			guidesFor(w, keys)
		}
	})
	g := guidesFor(w, keys)
	b.Run("move", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			g.lines(g.snap(geom.Pt(i%997, i%613)))
		}
	})
}
