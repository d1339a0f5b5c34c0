package tool

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// That wires of one job share a size and are told apart by colour is common
// practice, no source.
func TestNextWireIsLikeTheSelectedOrTheLastOne(t *testing.T) {
	w := newWindow(t)
	assert.Nil(t, likeWire(w))
	assert.Empty(t, likeWords(w))

	w.last = &schematic.Wire{Name: "W7", Size: unit.MM2(0.75), Insulation: "FLRY", Color: schematic.Color{Base: "RD"}}
	like := likeWire(w)
	assert.Equal(t, unit.MM2(0.75), like.Size)
	assert.Equal(t, "FLRY", like.Insulation)
	assert.True(t, like.Color.IsZero(), "the colour tells circuits apart")
	assert.Equal(t, "RD", w.last.Color.Base, "the wire itself is left alone")
	assert.Equal(t, "0.75 mm² FLRY like W7, colour left open", likeWords(w))

	s, _ := wireIdle{}.Handle(DocChanged{}, w)
	assert.Contains(t, s.Hint(), "start a wire: 0.75 mm² FLRY like W7, colour left open.")

	w.last = &schematic.Wire{Name: "W7", Color: schematic.Color{Base: "RD"}}
	assert.Empty(t, likeWords(w), "nothing to take over but a colour")
}
