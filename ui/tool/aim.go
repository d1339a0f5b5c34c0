package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// target is where a wire would start or end.
type target struct {
	anchor edit.Anchor
	at     geom.Point
	dir    geom.Dir
	locked bool // on a wire where none can end
}

// hanging is a loose end.
func hanging(at geom.Point) target { return target{anchor: edit.Anchor{At: at}, at: at} }

// aim returns what a wire would join at a point: a pin, another wire, or
// nothing but the place.
func aim(env Env, p geom.Point, mods Mods) target {
	hit := env.Hit(p)
	if t, ok := targetOf(env, edit.Anchor{Part: hit.Key.ID, Pin: hit.Pin, View: hit.View}); ok && hit.Pin != "" {
		return t
	}
	if mods&ModFree == 0 && hit.Ok && hit.Key.Type == schematic.TypePart && !hit.Text {
		if pin, ok := nearestPin(env.Doc(), hit, p); ok {
			if t, ok := targetOf(env, edit.Anchor{Part: hit.Key.ID, Pin: pin, View: hit.View}); ok {
				return t
			}
		}
	}
	if hit.Ok && hit.Key.Type == schematic.TypeWire {
		if t, ok := targetOf(env, edit.Anchor{Wire: hit.Key.ID, At: p}); ok {
			return t
		}
	}
	return hanging(env.Snap(p, mods))
}

// pinReach is how far into a symbol a place still means the pin beside it: its
// line, its name, its cavity.
const pinReach = 4 * geom.Grid

// nearestPin returns the pin that a place on a symbol means; false where none is
// near. A wire that ends on a symbol but at no pin looks joined and is not.
func nearestPin(d *schematic.Doc, hit Hit, p geom.Point) (pin string, ok bool) {
	part := d.Part(hit.Key.ID)
	if part == nil {
		return "", false
	}
	v, ok := part.View(hit.View)
	if !ok {
		return "", false
	}
	near := float64(pinReach)
	for _, pp := range d.PlacedPins(part, v) {
		if dist := pp.At.Dist(p); dist <= near {
			pin, near = pp.Pin.Name, dist
		}
	}
	return pin, pin != ""
}

// targetOf places an anchor on the sheet; false when it is not there.
func targetOf(env Env, a edit.Anchor) (target, bool) {
	d := env.Doc()
	switch {
	case a.Part != schematic.ID{}:
		at, dir, ok := d.EndAt(&schematic.Wire{Sheet: env.Sheet()}, schematic.End{Part: a.Part, Pin: a.Pin, View: a.View})
		return target{anchor: a, at: at, dir: dir}, ok
	case a.Wire != schematic.ID{}:
		w := d.Wire(a.Wire)
		if w == nil || w.Sheet != env.Sheet() {
			return target{}, false
		}
		a.At = edit.OnWire(d, w, a.At)
		return target{anchor: a, at: a.At, locked: w.Locked}, true
	}
	return hanging(a.At), true
}

// tip is the target as an end of a way.
func (t target) tip() route.Tip {
	return route.Tip{At: t.at, Dir: t.dir, Pin: schematic.PinRef{Part: t.anchor.Part, Pin: t.anchor.Pin}}
}

// joins reports whether the target is more than an empty place.
func (t target) joins() bool {
	return t.anchor.Part != schematic.ID{} || t.anchor.Wire != schematic.ID{}
}

// marks returns what to ring.
func (t target) marks() []geom.Point {
	if !t.joins() || t.locked {
		return nil
	}
	return []geom.Point{t.at}
}

// called names the target in a label: "F1.2", "W7", or "" for an empty place.
func (t target) called(d *schematic.Doc) string {
	switch {
	case t.anchor.Part != schematic.ID{}:
		return called(d, []schematic.Key{{Type: schematic.TypePart, ID: t.anchor.Part}}) + "." + t.anchor.Pin
	case t.anchor.Wire != schematic.ID{}:
		return called(d, []schematic.Key{{Type: schematic.TypeWire, ID: t.anchor.Wire}})
	}
	return ""
}
