package netlist

import (
	"math"

	"loomwright/calc/tables"
	"loomwright/schematic"
)

// fuseWire is a fuse's resistance between cold and at its rating.
type fuseWire struct {
	amp       float64 // rating
	cold, hot float64 // Ω
}

// fuse returns the resistance of a fuse: as given, else between the published
// cold value and the published drop at its rating, else by a usual drop.
func (b *Branch) fuse() fuseWire {
	if b.OhmKnown {
		return fuseWire{cold: b.Ohm, hot: b.Ohm}
	}
	amp := b.Value("amp").Or(0)
	if row, _, ok := tables.FuseElement(amp); ok {
		return fuseWire{amp, row.ColdOhm, row.DropV / amp}
	}
	if amp > 0 {
		return fuseWire{amp, bigFuseVolt / amp, bigFuseVolt / amp}
	}
	return fuseWire{cold: assumedOhm, hot: assumedOhm}
}

// ohm is the resistance with a settled current: the element warms with the
// square of the current, up to the value at the rating.
func (f fuseWire) ohm(amp float64) float64 {
	if f.hot == f.cold {
		return f.cold
	}
	share := math.Min(math.Abs(amp)/f.amp, 1)
	return f.cold + (f.hot-f.cold)*share*share
}

// FuseOhm returns the resistance of a fuse, link or breaker in Ω, cold and at
// its rated current; known is false where something stands in for it.
func (b *Branch) FuseOhm() (cold, hot float64, known bool) {
	if b.Role != RoleElement || b.Element.Type != schematic.ElemFuse {
		return 0, 0, false
	}
	f := b.fuse()
	return f.cold, f.hot, b.OhmKnown || len(b.Missing) == 0
}
