package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// gripLabel is the label of a wire, to be put somewhere else.
type gripLabel struct {
	wire   schematic.ID
	middle geom.Point // where it stood
}

// labelGrip returns the label of a wire that lies under a press.
func labelGrip(env Env, hit Hit) (gripped, bool) {
	if !hit.Text || hit.Key.Type != schematic.TypeWire || env.Doc().Wire(hit.Key.ID) == nil {
		return nil, false
	}
	return gripLabel{hit.Key.ID, hit.Middle}, true
}

func (g gripLabel) alive(d *schematic.Doc) bool { return d.Wire(g.wire) != nil }

func (g gripLabel) label(d *schematic.Doc) string {
	return "move the label of " + called(d, []schematic.Key{{Type: schematic.TypeWire, ID: g.wire}})
}

// to needs no grid: a label stands where it reads best.
func (g gripLabel) to(e Move, from geom.Point, _ Env) (func(*edit.Tx) error, []geom.Point) {
	by := e.At.Sub(from)
	if by == (geom.Point{}) {
		return nil, nil
	}
	return func(tx *edit.Tx) error { return edit.MoveLabel(tx, g.wire, g.middle.Add(by)) }, nil
}
