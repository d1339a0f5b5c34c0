package draw_test

import (
	"fmt"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
)

func BenchmarkFirstBuild(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			c := crowd(n, 1)
			for b.Loop() {
				draw.Sheet(c.doc, c.sheet.ID, draw.Options{})
			}
		})
	}
}

func BenchmarkRebuildAfterEdit(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			c := crowd(n, 1)
			var d draw.Builder
			d.Sheet(c.doc, c.sheet.ID, draw.Options{})
			p := *c.parts["F3"]
			i := 0
			for b.Loop() {
				i++
				q := p
				q.Views = []schematic.View{{Sheet: c.sheet.ID, At: p.Views[0].At.Add(geom.Pt(25*(i%2), 0))}}
				d.Sheet(c.doc.With(schematic.Put{Key: q.Key(), Item: &q}), c.sheet.ID, draw.Options{})
			}
		})
	}
}
