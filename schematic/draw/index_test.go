package draw_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

func TestHoverEqualsScan(t *testing.T) {
	b := crowd(300, 22)
	l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{})
	ix := draw.NewIndex(l)
	rng := rand.New(rand.NewPCG(22, 0))
	for i := range 1000 {
		p := draw.Point{X: rng.Float64()*1.1*l.Size.X - 5, Y: rng.Float64()*1.1*l.Size.Y - 5}
		r := rng.Float64() * 6
		require.Equal(t, ix.AtByScan(p, r), ix.At(p, r), "%v %v", p, r)
		if i%10 != 0 {
			continue
		}
		q := draw.Point{X: p.X + rng.Float64()*60, Y: p.Y + rng.Float64()*60}
		for _, enclosed := range []bool{true, false} {
			area := draw.Box{Min: p, Max: q}
			require.Equal(t, ix.InByScan(area, enclosed), ix.In(area, enclosed))
		}
	}
}

func TestHoverOrder(t *testing.T) {
	b := small(t)
	ix := draw.NewIndex(draw.Sheet(b.doc, b.sheet.ID, draw.Options{}))
	tests := []struct {
		why    string
		x, y   float64
		radius float64
		want   string
		pin    string
	}{
		{"a pin wins over its part and the wire that ends there", 60, 87.2, 1.5, "E1", "31"},
		{"inside the body the part wins over a wire", 60, 80, 1, "E1", ""},
		{"a wire on its own", 100, 55.4, 1, "W2", ""},
		{"beside a designation, nothing nearer", 64.6, 73, 0.4, "E1", ""},
		{"a note's frame", 230, 15.2, 0.5, "note", ""},
		{"inside a frame is not on it", 230, 60, 2, "", ""},
		{"a note's text", 18, 126, 0.5, "note", ""},
	}
	for _, tt := range tests {
		hits := ix.At(draw.Point{X: tt.x, Y: tt.y}, tt.radius)
		if tt.want == "" {
			assert.Empty(t, hits, tt.why)
			continue
		}
		require.NotEmpty(t, hits, tt.why)
		name := schematic.NameOf(b.doc.Get(hits[0].Key))
		if hits[0].Key.Type == schematic.TypeNote {
			name = "note"
		}
		assert.Equal(t, tt.want, name, tt.why)
		assert.Equal(t, tt.pin, hits[0].Pin, tt.why)
	}
}

func TestAreaSelection(t *testing.T) {
	b := small(t)
	ix := draw.NewIndex(draw.Sheet(b.doc, b.sheet.ID, draw.Options{}))
	names := func(keys []schematic.Key) (out []string) {
		for _, k := range keys {
			out = append(out, schematic.NameOf(b.doc.Get(k)))
		}
		slices.Sort(out)
		return out
	}
	box := draw.Box{Min: draw.Point{X: 55, Y: 70}, Max: draw.Point{X: 66, Y: 112}}
	assert.Equal(t, []string{"E1", "SP1", "W3"}, names(ix.In(box, true)), "only what lies wholly inside")
	assert.Equal(t, []string{"E1", "SP1", "W1", "W3", "W4", "W5"}, names(ix.In(box, false)), "and what reaches in")
	assert.Empty(t, ix.In(draw.Box{Min: draw.Point{X: 9}, Max: draw.Point{X: 1}}, true))
}

func BenchmarkHover(b *testing.B) {
	c := crowd(10000, 1)
	l := draw.Sheet(c.doc, c.sheet.ID, draw.Options{})
	ix := draw.NewIndex(l)
	rng := rand.New(rand.NewPCG(1, 1))
	for b.Loop() {
		ix.At(draw.Point{X: rng.Float64() * l.Size.X, Y: rng.Float64() * l.Size.Y}, 2)
	}
	b.ReportMetric(float64(len(l.Marks)), "marks")
}

func BenchmarkIndexBuild(b *testing.B) {
	c := crowd(10000, 1)
	l := draw.Sheet(c.doc, c.sheet.ID, draw.Options{})
	for b.Loop() {
		draw.NewIndex(l)
	}
}
