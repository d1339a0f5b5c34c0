package netlist

import "loomwright/schematic"

// FuseOhm returns the resistance of a fuse, link or breaker in Ω, cold and at
// its rated current; known is false where something stands in for it.
func (b *Branch) FuseOhm() (cold, hot float64, known bool) {
	if b.Role != RoleElement || b.Element.Type != schematic.ElemFuse {
		return 0, 0, false
	}
	f := b.fuse()
	return f.cold, f.hot, b.OhmKnown || len(b.Missing) == 0
}
