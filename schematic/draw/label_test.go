package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
)

// labels returns the texts of wires on the sheet.
func labels(b *bench) (out []*draw.Text) {
	for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Marks {
		if t, ok := m.Op.(*draw.Text); ok && m.Owner.Type == schematic.TypeWire {
			out = append(out, t)
		}
	}
	return out
}

func TestLabelsTellWhatIsChosen(t *testing.T) {
	b := newBench(4200, 2970)
	w := *b.wire("W1", "10,10", "90,10", "BU/RD", 1.5)
	w.Circuit = "pump"
	b.put(&w)
	for _, c := range []struct {
		words []schematic.WireWord
		want  string
	}{
		{nil, "W1 1.5 BU/RD"},
		{[]schematic.WireWord{"circuit", "name"}, "W1 pump"},
		{[]schematic.WireWord{"color"}, "BU/RD"},
		{[]schematic.WireWord{"none"}, ""},
	} {
		i := *b.doc.Info()
		i.WireLabel = c.words
		b.put(&i)
		got := ""
		for _, l := range labels(b) {
			got += l.S
		}
		require.Equal(t, c.want, got)
	}
}

func TestALabelStandsWhereItWasPut(t *testing.T) {
	b := newBench(4200, 2970)
	w := *b.wire("W1", "10,10", "10,90", "BU", 1.5)
	b.wire("W2", "30,10", "30,90", "BU", 1.5)
	for _, c := range []struct {
		tag    geom.Point
		angle  float64
		reason string
	}{
		{geom.Pt(40, 100), 270, "beside an upright piece it stands upright"},
		{geom.Pt(400, 100), 0, "far from it, level"},
	} {
		w.Tag = c.tag
		b.put(&w)
		all := labels(b)
		require.Len(t, all, 2)
		l := all[0]
		require.Equal(t, "W1 1.5 BU", l.S, "a label that was put somewhere comes first and whole")
		require.Equal(t, c.angle, l.Angle, c.reason)
		box := l.Box()
		require.InDelta(t, float64(250+c.tag.X)/10, (box.Min.X+box.Max.X)/2, 0.5)
		require.InDelta(t, float64(1250+c.tag.Y)/10, (box.Min.Y+box.Max.Y)/2, 0.5)
	}
}

// Of labels the program places none touches another text, a part or a wire.
func TestLabelsFindRoom(t *testing.T) {
	for _, c := range []*bench{crowd(400, 3), star(150)} {
		findRoom(t, c)
	}
}

func findRoom(t *testing.T, c *bench) {
	l := draw.Sheet(c.doc, c.sheet.ID, draw.Options{})
	var texts []draw.Mark
	for _, m := range l.Marks {
		if _, ok := m.Op.(*draw.Text); ok {
			texts = append(texts, m)
		}
	}
	touching := 0
	for i, m := range texts {
		if m.Owner.Type != schematic.TypeWire {
			continue
		}
		for j, o := range texts {
			if i != j && m.Bound.Touches(o.Bound) {
				touching++
				t.Logf("%s touches %s", text(m), text(o))
			}
		}
		for w := range c.doc.Wires() {
			path := c.doc.Path(w)
			for k := 1; k < len(path); k++ {
				x0, y0 := geom.RectOf(path[k-1], path[k]).Min.MM()
				x1, y1 := geom.RectOf(path[k-1], path[k]).Max.MM()
				require.False(t, m.Bound.Grow(-0.1).Touches(draw.Box{Min: draw.Point{X: x0, Y: y0}, Max: draw.Point{X: x1, Y: y1}}), "%s lies on %s", text(m), w.Name)
			}
		}
	}
	require.Zero(t, touching)
}

func text(m draw.Mark) string { return strings.TrimSpace(m.Op.(*draw.Text).S) }
