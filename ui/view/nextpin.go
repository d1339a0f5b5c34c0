package view

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// NextPin returns the pin, or loose end of a wire, that lies next on a sheet in
// a direction, a unit vector: rather straight ahead than near but aside. It is
// false when nothing lies that way.
func NextPin(d *schematic.Doc, sheet schematic.ID, from, dir geom.Point) (geom.Point, bool) {
	const aside = 3 // how much worse a step aside is than one ahead
	best, at := 0, geom.Point{}
	look := func(p geom.Point) {
		by := p.Sub(from)
		ahead, off := by.X*dir.X+by.Y*dir.Y, by.X*dir.Y-by.Y*dir.X
		off = max(off, -off)
		if ahead <= 0 || off > 2*ahead {
			return
		}
		if cost := ahead + aside*off; best == 0 || cost < best || cost == best && before(p, at) {
			best, at = cost, p
		}
	}
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet != sheet {
				continue
			}
			for _, pin := range d.PlacedPins(p, v) {
				look(pin.At)
			}
		}
	}
	for w := range d.Wires() {
		for _, e := range []schematic.End{w.A, w.B} {
			if w.Sheet == sheet && e.Loose() {
				look(e.At)
			}
		}
	}
	return at, best > 0
}

// before puts places at the same distance in order.
func before(a, b geom.Point) bool { return a.Y < b.Y || a.Y == b.Y && a.X < b.X }
