package tool

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// handleReach is how near a press must be to a handle that is not a pin: those
// come with a reach of their own.
const handleReach = geom.Grid * 7 / 10

// gripped is the piece of a wire that a drag has taken hold of.
type gripped interface {
	// label names the edit.
	label(*schematic.Doc) string
	// to returns the edit for a pointer that is at e, and the points it would
	// join; nil when nothing would change.
	to(e Move, from geom.Point, env Env) (func(*edit.Tx) error, []geom.Point)
	// alive reports whether the piece is still there.
	alive(*schematic.Doc) bool
}

// gripEnd is one end of a wire, to be led somewhere else.
type gripEnd struct {
	wire  schematic.ID
	which edit.WireEnd
}

// gripPiece is one stretch of a wire, or one bend, to be pushed.
type gripPiece struct {
	wire  schematic.ID
	index int
	bend  bool
	path  geom.Path // as it was; another path is another piece
}

// endGrip returns the end of the wire that lies under a press. A locked wire
// cannot be taken hold of.
func endGrip(env Env, w *schematic.Wire, hit Hit, at geom.Point) (gripped, bool) {
	if w.Locked {
		return nil, false
	}
	for which, e := range []schematic.End{w.A, w.B} {
		place, _, shown := env.Doc().EndAt(w, e)
		under := e.Loose() && (hit.Key == w.Key() || !hit.Ok) && place.Dist(at) <= handleReach
		if !e.Loose() {
			under = hit.Pin == e.Pin && hit.Key == schematic.Key{Type: schematic.TypePart, ID: e.Part}
		}
		if shown && under {
			return gripEnd{w.ID, edit.WireEnd(which)}, true
		}
	}
	return nil, false
}

// wireGrip returns what of a wire a press takes hold of: end, bend or stretch.
func wireGrip(env Env, w *schematic.Wire, hit Hit, at geom.Point) (gripped, bool) {
	if w.Locked {
		return nil, false
	}
	if g, ok := endGrip(env, w, hit, at); ok {
		return g, true
	}
	path := env.Doc().Path(w)
	for i := 1; i < len(path)-1; i++ {
		if path[i].Dist(at) <= handleReach {
			return gripPiece{w.ID, i - 1, true, path}, true
		}
	}
	_, seg, _ := path.Dist(at)
	return gripPiece{w.ID, seg, false, path}, true
}

func (g gripEnd) alive(d *schematic.Doc) bool { return d.Wire(g.wire) != nil }
func (g gripEnd) label(d *schematic.Doc) string {
	return "reconnect " + called(d, []schematic.Key{{Type: schematic.TypeWire, ID: g.wire}})
}

func (g gripEnd) to(e Move, _ geom.Point, env Env) (func(*edit.Tx) error, []geom.Point) {
	w := env.Doc().Wire(g.wire)
	if w == nil {
		return nil, nil
	}
	t := aim(env, e.At, e.Mods)
	if t.anchor.Wire == g.wire { // a wire cannot end on itself
		t = hanging(env.Snap(e.At, e.Mods))
	}
	if t.locked {
		return nil, nil
	}
	old := w.A
	if g.which == edit.EndB {
		old = w.B
	}
	same := schematic.End{Part: t.anchor.Part, Pin: t.anchor.Pin}.Ref() == old.Ref()
	if same && (!old.Loose() || t.anchor.Wire == schematic.ID{} && t.at == old.At) {
		return nil, t.marks()
	}
	return func(tx *edit.Tx) error { return edit.ReconnectEnd(tx, g.wire, g.which, t.anchor) }, t.marks()
}

func (g gripPiece) alive(d *schematic.Doc) bool {
	w := d.Wire(g.wire)
	return w != nil && slices.Equal(d.Path(w), g.path)
}

func (g gripPiece) label(d *schematic.Doc) string {
	return "reshape " + called(d, []schematic.Key{{Type: schematic.TypeWire, ID: g.wire}})
}

func (g gripPiece) to(e Move, from geom.Point, _ Env) (func(*edit.Tx) error, []geom.Point) {
	by := travel(from, e.At, e.Mods)
	if by == (geom.Point{}) {
		return nil, nil
	}
	if g.bend {
		return func(tx *edit.Tx) error { return edit.MoveBend(tx, g.wire, g.index, by) }, nil
	}
	return func(tx *edit.Tx) error { return edit.MoveSegment(tx, g.wire, g.index, by) }, nil
}
