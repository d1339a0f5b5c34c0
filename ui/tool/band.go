package tool

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// selectBand draws a rectangle over the sheet. Drawn to the right it takes
// what lies wholly inside, drawn to the left all that it touches; Alt swaps
// the two. Shift adds what it takes to the selection, Ctrl takes it out.
type selectBand struct {
	from  geom.Point
	touch bool
	takes string // what it takes just now, in words
	mods  Mods
	held  string // the locked thing it began on, which does not move
}

func (selectBand) Name() string { return "select.band" }

func (s selectBand) Hint() string {
	frame, other := "Solid frame: ", " Drag left, or hold Alt: all it touches."
	if s.touch {
		frame, other = "Dashed frame: ", " Drag right, or hold Alt: what it encloses."
	}
	takes := s.takes
	if takes == "" {
		takes = "nothing"
	}
	if s.held != "" {
		frame = sentence(s.held) + " is locked in place. " + frame
	}
	switch {
	case s.mods&ModAdd != 0:
		return frame + "adds " + takes + "." + other
	case s.mods&ModCopy != 0:
		return frame + "takes out " + takes + "." + other
	}
	return frame + takes + "." + other + " Shift adds, Ctrl takes out."
}

func (s selectBand) Handle(e Event, env Env) (State, []Effect) {
	hide := Band{Area: geom.EmptyRect()}
	switch e := e.(type) {
	case Press: // the release was lost
		next, effects := selectIdle{}.Handle(e, env)
		return next, append([]Effect{hide}, effects...)
	case Move:
		keys := s.to(e.At, e.Mods, env)
		return s, []Effect{Band{Area: geom.RectOf(s.from, e.At), Touch: s.touch, Takes: keys}}
	case Release:
		keys := s.to(e.At, e.Mods, env)
		switch sel := env.Selection(); {
		case e.Mods&ModAdd != 0:
			keys = append(slices.Clone(sel), slices.DeleteFunc(keys, func(k schematic.Key) bool { return slices.Contains(sel, k) })...)
		case e.Mods&ModCopy != 0:
			keys = slices.DeleteFunc(slices.Clone(sel), func(k schematic.Key) bool { return slices.Contains(keys, k) })
		}
		return selectIdle{}, []Effect{hide, Select{keys}}
	case Cancel:
		return selectIdle{}, []Effect{hide}
	}
	return s, nil
}

// to draws the frame on to a point and returns what it takes there.
func (s *selectBand) to(p geom.Point, mods Mods, env Env) []schematic.Key {
	s.mods = mods
	s.touch = (p.X < s.from.X) != (mods&ModFree != 0)
	keys := env.In(geom.RectOf(s.from, p), !s.touch)
	s.takes = schematic.Tally(keys)
	return keys
}
