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

// star is a stud with very many wires.
func star(n int) *bench {
	b := newBench(33600, 23800)
	b.part("stud", "GND1", 400, 400)
	for i := range n {
		b.part("fuse", fmt.Sprint("F", i), 10+i%60*14, 10+i/60*14)
		b.wire(fmt.Sprint("W", i), "GND1.1", fmt.Sprintf("F%d.1", i), "BK", 1)
	}
	return b
}

func BenchmarkManyWiresAtOnePin(b *testing.B) {
	c := star(3333)
	for b.Loop() {
		draw.Sheet(c.doc, c.sheet.ID, draw.Options{})
	}
}
