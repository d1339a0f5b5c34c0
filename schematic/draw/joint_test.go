package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
)

func dots(b *bench) []draw.Point {
	var out []draw.Point
	for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Marks {
		if f, ok := m.Op.(*draw.Fill); ok && f.Ink == draw.InkJoint {
			out = append(out, draw.Point{X: (m.Bound.Min.X + m.Bound.Max.X) / 2, Y: (m.Bound.Min.Y + m.Bound.Max.Y) / 2})
		}
	}
	return out
}

func hopsOf(b *bench, name string) (n int) {
	for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Marks {
		s, ok := m.Op.(*draw.Stroke)
		if !ok || s.Ink != draw.InkWireRim || m.Owner != key(b, name) {
			continue
		}
		for _, g := range s.Path {
			if g.Verb == draw.CubeTo {
				n++
			}
		}
	}
	return n / 2
}

func TestJoints(t *testing.T) {
	tests := []struct {
		name, why string
		make      func(*bench)
		want      []draw.Point
	}{
		{"one wire", "a line's end is no joint", func(b *bench) {
			b.wire("W1", "F1.2", "E1.58", "RD", 1)
		}, nil},
		{"two straight on", "lead and wire below, wire above: two lines in a row", func(b *bench) {
			b.wire("W1", "F1.2", "20,40", "RD", 1)
		}, nil},
		{"tee at a pin", "lead, one wire down, one to the side", func(b *bench) {
			b.wire("W1", "F1.2", "20,40", "RD", 1, geom.Pt(20, 30))
			b.wire("W2", "F1.2", "30,23", "RD", 1, geom.Pt(25, 23))
		}, []draw.Point{{X: 50, Y: 57.5}}},
		{"parting later", "both leave downwards and part at 20,30", func(b *bench) {
			b.wire("W1", "F1.2", "20,40", "RD", 1, geom.Pt(20, 35))
			b.wire("W2", "F1.2", "30,30", "RD", 1, geom.Pt(20, 30))
		}, []draw.Point{{X: 50, Y: 75}}},
		{"trunk", "three wires come to the pin in one line: dots where they part, none at the pin", func(b *bench) {
			b.wire("W1", "F1.2", "20,40", "RD", 1)
			b.wire("W2", "F1.2", "30,30", "RD", 1, geom.Pt(20, 30))
			b.wire("W3", "F1.2", "30,35", "RD", 1, geom.Pt(20, 35))
		}, []draw.Point{{X: 50, Y: 75}, {X: 50, Y: 87.5}}},
		{"three ends", "three wires in one pin, whatever their way", func(b *bench) {
			b.wire("W1", "F1.2", "20,40", "RD", 1, geom.Pt(20, 35))
			b.wire("W2", "F1.2", "20,40", "RD", 1, geom.Pt(20, 35))
			b.wire("W3", "F1.2", "20,40", "RD", 1, geom.Pt(20, 35))
		}, []draw.Point{{X: 50, Y: 57.5}}},
		{"crossing", "wires that only cross have no dot", func(b *bench) {
			b.wire("W1", "5,30", "40,30", "RD", 1)
			b.wire("W2", "20,25", "20,40", "BU", 1)
		}, nil},
		{"loose ends", "loose ends at one point are not joined", func(b *bench) {
			for _, n := range []string{"W1", "W2", "W3"} {
				b.wire(n, "5,30", "40,30", "RD", 1)
			}
		}, nil},
		{"splice", "its own symbol is the dot", func(b *bench) {
			b.part("splice", "SP1", 40, 40)
			b.wire("W1", "SP1.1", "50,40", "RD", 1)
			b.wire("W2", "SP1.1", "30,40", "RD", 1)
			b.wire("W3", "SP1.1", "40,50", "RD", 1)
		}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newBench(3000, 2000)
			b.part("fuse", "F1", 20, 20)
			b.part("lamp", "E1", 20, 50)
			tt.make(b)
			got := dots(b)
			assert.Len(t, got, len(tt.want), tt.why)
			for i := range tt.want {
				assert.InDelta(t, tt.want[i].X, got[i].X, 1e-6, tt.why)
				assert.InDelta(t, tt.want[i].Y, got[i].Y, 1e-6, tt.why)
			}
		})
	}
}

func TestHops(t *testing.T) {
	tests := []struct {
		name, why string
		make      func(*bench)
		want      int
	}{
		{"plain crossing", "the level wire hops", func(b *bench) { b.wire("W2", "20,20", "20,40", "BU", 1) }, 1},
		{"ends on it", "an end that touches does not cross", func(b *bench) { b.wire("W2", "20,20", "20,30", "BU", 1) }, 0},
		{"beside", "no crossing", func(b *bench) { b.wire("W2", "60,20", "60,40", "BU", 1) }, 0},
		{"grid neighbours", "two hops a grid step apart fit", func(b *bench) {
			b.wire("W2", "20,20", "20,40", "BU", 1)
			b.wire("W3", "21,20", "21,40", "BU", 1)
		}, 2},
		{"at its end", "no room for an arc beside the end", func(b *bench) {
			w := *b.wire("W2", "20,20", "20,40", "BU", 1)
			w.A.At.X, w.B.At.X = 5*25+8, 5*25+8
			b.put(&w)
		}, 0},
		{"same net", "wires from one pin still hop where they cross", func(b *bench) {
			b.part("splice", "SP1", 50, 10)
			b.wire("W2", "SP1.1", "20,40", "BU", 1, geom.Pt(20, 10))
		}, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := newBench(3000, 2000)
			b.wire("W1", "5,30", "40,30", "RD", 1)
			tt.make(b)
			assert.Equal(t, tt.want, hopsOf(b, "W1"), tt.why)
		})
	}
}

func TestLoosePinsAreRinged(t *testing.T) {
	b := newBench(3000, 2000)
	b.part("fuse", "F1", 20, 20)
	w := b.wire("W1", "F1.2", "20,50", "RD", 1)
	rings := 0
	for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Marks {
		if f, ok := m.Op.(*draw.Fill); ok && f.Ink == draw.InkPaper && m.Owner == w.Key() {
			rings++
			assert.InDelta(t, 125, (m.Bound.Min.Y+m.Bound.Max.Y)/2, 1e-6)
		}
	}
	assert.Equal(t, 1, rings)
}

func TestCurrentArrowsPointTheirWay(t *testing.T) {
	tests := []struct {
		a, z string
		flow draw.Flow
		want draw.Point // the arrow's direction
	}{
		{"10,30", "50,30", draw.AToB, draw.Point{X: 1}},
		{"10,30", "50,30", draw.BToA, draw.Point{X: -1}},
		{"50,30", "10,30", draw.AToB, draw.Point{X: -1}},
		{"30,10", "30,50", draw.AToB, draw.Point{Y: 1}},
		{"30,10", "30,50", draw.BToA, draw.Point{Y: -1}},
		{"30,50", "30,10", draw.AToB, draw.Point{Y: -1}},
	}
	for _, tt := range tests {
		b := newBench(3000, 2000)
		w := b.wire("W1", tt.a, tt.z, "RD", 1)
		l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{Live: &draw.Live{
			Currents: map[schematic.ID]draw.Current{w.ID: {Text: "4.2 A", Flow: tt.flow}}}})
		n := 0
		for _, m := range l.Marks {
			f, ok := m.Op.(*draw.Fill)
			if !ok || f.Ink != draw.InkCurrent {
				continue
			}
			n++
			tip, p, q := f.Path[0].P, f.Path[1].P, f.Path[2].P
			dx, dy := tip.X-(p.X+q.X)/2, tip.Y-(p.Y+q.Y)/2
			assert.InDelta(t, tt.want.X*1.5, dx, 1e-6, "%+v", tt)
			assert.InDelta(t, tt.want.Y*1.5, dy, 1e-6, "%+v", tt)
		}
		assert.Equal(t, 1, n)
	}
}

// Severity says itself by shape and by word, not by colour alone.
func TestSeverityHasShapeAndWord(t *testing.T) {
	shapes := map[string]bool{}
	for level, word := range map[draw.Level]string{draw.Info: "note", draw.Warn: "warning", draw.Error: "error"} {
		b := newBench(3000, 2000)
		p := b.part("fuse", "F1", 20, 20)
		l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{Live: &draw.Live{
			Severity: map[schematic.Key]draw.Severity{p.Key(): {Level: level}}}})
		assert.Contains(t, said(l), word)
		for _, m := range l.Marks {
			if f, ok := m.Op.(*draw.Fill); ok && (f.Ink == draw.InkError || f.Ink == draw.InkWarn || f.Ink == draw.InkInfo) {
				shape := ""
				for _, s := range f.Path {
					shape += string(rune('0' + s.Verb))
				}
				assert.False(t, shapes[shape], "two levels share a shape")
				shapes[shape] = true
			}
		}
	}
	assert.Len(t, shapes, 3)
}
