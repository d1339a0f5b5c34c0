package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// The edge of a current's tag counts: beside a thick wire it would cut the label.
func TestCurrentTagsLeaveTheLabelWhole(t *testing.T) {
	for _, to := range []string{"45,20", "20,45", "120,20"} {
		for _, size := range []float64{0.5, 4, 16, 35, 50, 95} {
			b := newBench(3000, 2000)
			w := b.wire("W101", "20,20", to, "RD", size)
			l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{Live: &draw.Live{
				Currents: map[schematic.ID]draw.Current{w.ID: {Text: "999 mA", Flow: draw.AToB}}}})
			var label, tag draw.Box
			for _, m := range l.Marks {
				switch op := m.Op.(type) {
				case *draw.Text:
					if op.Ink == draw.InkText && m.Owner == w.Key() {
						label = m.Bound
					}
				case *draw.Stroke:
					if op.Ink == draw.InkCurrent {
						tag = m.Bound
					}
				}
			}
			require.NotEqual(t, draw.Box{}, label, "%g mm² to %s", size, to)
			require.NotEqual(t, draw.Box{}, tag)
			assert.False(t, tag.Touches(label), "%g mm² to %s: tag %v, label %v", size, to, tag, label)
		}
	}
}
