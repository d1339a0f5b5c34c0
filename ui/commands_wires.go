package ui

import (
	"context"
	"errors"
	"slices"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
	"loomwright/ui/action"
	"loomwright/ui/tool"
)

// wireActions are the commands for wires.
func (ed *Editor) wireActions() {
	ed.actions.Add(
		&action.Action{ID: "wires.anew", Title: "Route anew", Menu: "Edit/Wires", Keys: []action.Key{action.C("R")}, Enabled: ed.wiresSelected, Words: "straighten bends path way reroute automatic",
			Help: "Forget the bends of the selected wires and find the best way round parts and other wires", Run: ed.routeSelected},
		&action.Action{ID: "wires.tidy", Title: "Tidy all wires of this sheet", Menu: "Edit/Wires", Enabled: ed.anyWires, Words: "route automatic clean bends path way",
			Help: "Find the best way for every wire of the sheet in sight; one step back brings the old bends again", Run: ed.tidySheet},
		&action.Action{ID: "wires.bend", Title: "Bend here, or take the bend out", Menu: "Edit/Wires", Keys: []action.Key{action.K("B")}, Enabled: ed.wiresSelected, Words: "corner kink add remove",
			Help: "Add a bend to the selected wire under the pointer, or take the one there out; a double click on a bend does so too", Run: ed.bendHere},
		&action.Action{ID: "wires.join", Title: "Take out and join the wires", Menu: "Edit/Wires", Keys: []action.Key{action.K("J")}, Enabled: ed.canJoin, Words: "splice remove merge unsplice connector",
			Help: "Take the selected splice or part out and make one wire of the two that end there", Run: ed.joinWires},
		&action.Action{ID: "wires.lift", Title: "Lift out of the wire", Menu: "Edit/Wires", Keys: []action.Key{{Mods: action.Shift, Name: "J"}}, Enabled: ed.canJoin, Words: "pull free remove unsplice bypass close",
			Help: "Put the selected part beside the wire it is in and make one wire of the two that end there; dragging it with Shift does so too", Run: ed.liftOut},
		&action.Action{ID: "wires.labels", Title: "Put labels back", Menu: "Edit/Wires", Enabled: ed.anyLabelMoved, Words: "text tag automatic place reset designation",
			Help: "Let the program find room for the labels of the selected wires again that were dragged somewhere", Run: ed.resetLabels},
		&action.Action{ID: "edit.twist", Title: "Twist wires together", Menu: "Edit/Wires", Gap: true, Enabled: func() bool { return len(ed.wireIDs()) > 1 }, Words: "pair group",
			Help: "Make the selected wires a twisted group", Run: func() { ed.bind(schematic.TwistGroup, "twist") }},
		&action.Action{ID: "edit.screen", Title: "Put under one screen", Menu: "Edit/Wires", Enabled: ed.wiresSelected, Words: "shield group",
			Help: "Put the selected wires under one screen", Run: func() { ed.bind(schematic.ScreenGroup, "screen") }},
		&action.Action{ID: "edit.unbind", Title: "Take out of their groups", Menu: "Edit/Wires", Enabled: ed.wiresSelected, Words: "untwist unshield",
			Help: "Take the selected wires out of twists and screens", Run: ed.unbind},
	)
}

func (ed *Editor) wiresSelected() bool { return len(ed.details.selectedWires()) > 0 }

func (ed *Editor) wireIDs() []schematic.ID {
	var ids []schematic.ID
	for _, w := range ed.details.selectedWires() {
		ids = append(ids, w.ID)
	}
	return ids
}

// bendHere adds or removes a bend where the pointer is.
func (ed *Editor) bendHere() {
	do, ok := tool.BendAt(ed.sheetView.scene(), ed.aimPoint())
	if !ok {
		ed.status.warn("select one wire and point at the place of it to bend")
		return
	}
	ed.perform([]tool.Effect{do})
}

// anyLabelMoved reports whether a selected wire's label was put somewhere.
func (ed *Editor) anyLabelMoved() bool {
	return slices.ContainsFunc(ed.details.selectedWires(), func(w *schematic.Wire) bool { return w.Tag != geom.Point{} })
}

func (ed *Editor) resetLabels() {
	keys := ed.sess.Selection()
	ed.do("put the labels of "+ed.what(keys)+" back", func(tx *edit.Tx) error { return edit.ResetLabels(tx, keys) })
}

// joint returns the one selected part, or connector, that one wire runs through.
func (ed *Editor) joint() (*schematic.Part, bool) {
	ps := ed.selectedParts()
	if len(ps) == 2 && ps[0].Mate == ps[1].ID {
		ps = ps[:1]
	}
	if len(ps) != 1 || !edit.CanJoin(ed.doc(), ps[0].ID) {
		return nil, false
	}
	return ps[0], true
}

func (ed *Editor) canJoin() bool { _, ok := ed.joint(); return ok }

func (ed *Editor) joinWires() {
	if p, ok := ed.joint(); ok {
		ed.do("take "+p.Name+" out", func(tx *edit.Tx) error { return edit.JoinWires(tx, p.ID) })
	}
}

// liftOut keeps the part and puts it beside the wire that closes behind it.
func (ed *Editor) liftOut() {
	if p, ok := ed.joint(); ok {
		ed.do("lift "+p.Name+" out", func(tx *edit.Tx) error { return edit.LiftFromWire(tx, ed.sheet, p.ID) })
	}
}

// anyWires reports whether the sheet in sight has wires.
func (ed *Editor) anyWires() bool {
	for w := range ed.doc().Wires() {
		if w.Sheet == ed.sheet {
			return true
		}
	}
	return false
}

func (ed *Editor) wiresHere() []schematic.ID {
	var ids []schematic.ID
	for w := range ed.doc().Wires() {
		if w.Sheet == ed.sheet {
			ids = append(ids, w.ID)
		}
	}
	return ids
}

func (ed *Editor) routeSelected() {
	ids := ed.wireIDs()
	ed.routeAnew("route "+ed.what(ed.sess.Selection())+" anew", ids)
}

func (ed *Editor) tidySheet() { ed.routeAnew("tidy the wires of the sheet", ed.wiresHere()) }

// fewWires are routed while the window waits: they take less than a frame.
const fewWires = 8

// routeAnew finds new ways for wires as one step of the history.
func (ed *Editor) routeAnew(label string, wires []schematic.ID) {
	ed.waysFor(ed.doc(), wires, func(vias route.Vias) { ed.rerouted(label, vias) }, func() {})
}

// waysFor finds ways for wires of a document that is the one in sight or follows
// from it, and hands them over. Many are looked for beside the window, with
// progress and a way to stop; nothing comes of it then, or when the drawing has
// changed meanwhile.
func (ed *Editor) waysFor(doc *schematic.Doc, wires []schematic.ID, found func(route.Vias), nothing func()) {
	if len(wires) <= fewWires {
		vias, _ := route.AnewAll(context.Background(), doc, wires, nil)
		found(vias)
		return
	}
	since := ed.doc()
	ctx, stop := context.WithCancel(context.Background())
	bar := widget.NewProgressBar()
	b := &box{title: "Routing " + count(len(wires), "wire"), size: fyne.NewSize(420, 0), content: container.NewVBox(bar), answers: []answer{{text: "Stop", stays: true, deed: stop}}}
	ed.openBox(b)
	var last atomic.Int64
	ed.crew.spawn(func() {
		vias, err := route.AnewAll(ctx, doc, wires, func(of, n int) {
			if now := time.Now().UnixMilli(); now-last.Load() > 50 {
				last.Store(now)
				ed.crew.post(func() { bar.SetValue(float64(n) / float64(of)) })
			}
		})
		ed.crew.post(func() {
			stop()
			b.close()
			switch {
			case errors.Is(err, context.Canceled):
				ed.status.warn("routing stopped, nothing was changed")
				nothing()
			case ed.doc() != since:
				ed.status.warn("the drawing changed meanwhile, nothing was routed: try again")
				nothing()
			default:
				found(vias)
			}
		})
	})
}

func (ed *Editor) rerouted(label string, vias route.Vias) {
	if len(vias) == 0 {
		ed.status.tell("the wires take the best way already")
		return
	}
	if ed.do(label, func(tx *edit.Tx) error { return edit.SetBends(tx, vias) }) {
		ed.status.tell(count(len(vias), "wire") + " routed anew")
	}
}

func (ed *Editor) bind(t schematic.GroupType, verb string) {
	ids := ed.wireIDs()
	ed.do(verb+" "+count(len(ids), "wire"), func(tx *edit.Tx) error { return edit.Bind(tx, t, ids) })
}

func (ed *Editor) unbind() {
	ids := ed.wireIDs()
	ed.do("take "+count(len(ids), "wire")+" out of groups", func(tx *edit.Tx) error {
		if err := edit.Unbind(tx, schematic.TwistGroup, ids); err != nil {
			return err
		}
		return edit.Unbind(tx, schematic.ScreenGroup, ids)
	})
}
