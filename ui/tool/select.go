package tool

import (
	"math"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// selectIdle waits for a press.
type selectIdle struct {
	shape CursorShape // what the pointer looks like over a handle
}

func (selectIdle) Name() string { return "select.idle" }
func (selectIdle) Hint() string {
	return "Click to select, drag to move. Drag over empty sheet to select several. Double click to edit."
}

func (s selectIdle) Handle(e Event, env Env) (State, []Effect) {
	if move, ok := e.(Move); ok {
		return s.hover(move, env)
	}
	press, ok := e.(Press)
	if !ok {
		return s, nil
	}
	hit := env.Hit(press.At)
	if do, ok := bendOff(env, hit, press); ok {
		return s, []Effect{do}
	}
	if press.Clicks >= 2 && hit.Ok && press.Mods&(ModAdd|ModCopy) == 0 {
		return s, []Effect{Inspect{hit.Key}}
	}
	next := selectPressing{press: press, hit: hit}
	if w := soleWire(env); w != nil && press.Mods&(ModAdd|ModCopy) == 0 {
		// The handles of the selected wire lie over the pins they are at.
		if g, ok := endGrip(env, w, hit, press.At); ok {
			next.grip = g
			return next, nil
		}
	}
	if hit.Ok && press.Mods&(ModAdd|ModFree) == 0 && !slices.Contains(env.Selection(), hit.Key) {
		return next, []Effect{Select{[]schematic.Key{hit.Key}}}
	}
	return next, nil
}

// selectPressing has the button down and has not moved far enough for a drag.
type selectPressing struct {
	press Press
	hit   Hit
	grip  gripped // what a drag would take hold of, nil for whole items
}

func (selectPressing) Name() string { return "select.pressing" }
func (selectPressing) Hint() string { return "Let go to select, or drag." }

func (s selectPressing) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Press: // the release was lost
		return selectIdle{}.Handle(e, env)
	case Move:
		if far(s.press.Pixels, e.Pixels, env) {
			return s.drag(e, env)
		}
	case Release:
		return selectIdle{}, s.click(env)
	case Cancel:
		return selectIdle{}, nil
	case DocChanged:
		if s.hit.Ok && env.Doc().Get(s.hit.Key) == nil {
			return selectIdle{}, nil
		}
	}
	return s, nil
}

// drag decides what the gesture is.
func (s selectPressing) drag(e Move, env Env) (State, []Effect) {
	if s.grip != nil {
		return selectGripping{grip: s.grip, from: s.press.At}.Handle(e, env)
	}
	if g, ok := labelGrip(env, s.hit); ok && (s.press.Mods|e.Mods)&(ModCopy|ModAdd) == 0 {
		return selectGripping{grip: g, from: s.press.At}.Handle(e, env)
	}
	if !s.hit.Ok {
		return selectBand{from: s.press.At}.Handle(e, env)
	}
	if edit.Locked(env.Doc(), s.hit.Key) && (s.press.Mods|e.Mods)&ModCopy == 0 {
		return selectBand{from: s.press.At, held: called(env.Doc(), []schematic.Key{s.hit.Key})}.Handle(e, env)
	}
	if w := soleWire(env); w != nil && w.Key() == s.hit.Key && (s.press.Mods|e.Mods)&ModCopy == 0 {
		if g, ok := wireGrip(env, w, s.hit, s.press.At); ok {
			return selectGripping{grip: g, from: s.press.At}.Handle(e, env)
		}
	}
	keys := env.Selection()
	if slices.Contains(keys, s.hit.Key) {
		return dragging(keys, s.hit, s.press.At, env).Handle(e, env)
	}
	if s.press.Mods&ModAdd == 0 { // pressed with Alt
		keys = nil
	}
	keys = append(slices.Clone(keys), s.hit.Key)
	next, effects := dragging(keys, s.hit, s.press.At, env).Handle(e, env)
	return next, append([]Effect{Select{keys}}, effects...)
}

// click is a press let go where it was made.
func (s selectPressing) click(env Env) []Effect {
	sel := env.Selection()
	switch {
	case s.press.Mods&ModAdd != 0 && s.hit.Ok:
		return []Effect{Select{toggle(sel, s.hit.Key)}}
	case s.press.Mods&ModAdd != 0:
		return nil
	case s.press.Mods&ModFree != 0 && s.hit.Ok:
		do, _, _ := Beneath(env, s.press.At)
		return []Effect{do}
	case s.hit.Ok:
		return []Effect{Select{[]schematic.Key{s.hit.Key}}}
	case len(sel) > 0:
		return []Effect{Select{}}
	}
	return nil
}

// toggle adds the keys that are not selected and removes those that are.
func toggle(sel []schematic.Key, keys ...schematic.Key) []schematic.Key {
	out := slices.Clone(sel)
	for _, k := range keys {
		if i := slices.Index(out, k); i >= 0 {
			out = slices.Delete(out, i, i+1)
		} else {
			out = append(out, k)
		}
	}
	return out
}

// far reports whether the pointer has travelled far enough for a drag.
func far(from, to draw.Point, env Env) bool {
	return math.Hypot(to.X-from.X, to.Y-from.Y) >= env.DragPixels()
}

// soleWire returns the wire that alone is selected and drawn on the sheet.
func soleWire(env Env) *schematic.Wire {
	sel := env.Selection()
	if len(sel) != 1 || sel[0].Type != schematic.TypeWire {
		return nil
	}
	if w := env.Doc().Wire(sel[0].ID); w != nil && w.Sheet == env.Sheet() {
		return w
	}
	return nil
}

// travel returns how far a drag has gone, in whole grid steps unless free.
func travel(from, to geom.Point, mods Mods) geom.Point {
	d := to.Sub(from)
	if mods&ModFree != 0 {
		return d
	}
	return d.Snap(geom.Grid)
}
