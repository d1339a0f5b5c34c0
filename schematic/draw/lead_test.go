package draw

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// A terminal number that finds no room beside its lead stands beyond it, where
// the wire comes in: it must not lie on that wire.
func TestTerminalNumbersKeepOffTheWire(t *testing.T) {
	reach := WireWidth(&schematic.Wire{Size: unit.MM2(6)})/2 + rimWidth
	for _, d := range []geom.Dir{geom.Up, geom.Down, geom.Left, geom.Right} {
		pp := schematic.PlacedPin{Pin: schematic.Pin{Name: "SG"}, At: geom.Pt(500, 500), Dir: d}
		end := mm(pp.At.Add(geom.Pt(100*d.Vec().X, 100*d.Vec().Y)))
		wire := emptyBox().extend(mm(pp.At)).extend(end).Grow(reach)
		places := leadTexts(pp)
		beyond := places[len(places)-1]
		assert.False(t, beyond.Box().Touches(wire), "%v: number in %v, wire in %v", d, beyond.Box(), wire)
		assert.True(t, beyond.Box().Touches(wire.Grow(0.5)), "%v: and not far from it", d)
	}
}
