package tool

import "loomwright/schematic/geom"

// selectBand draws a rectangle over the sheet. Drawn to the right it takes
// what lies wholly inside, drawn to the left all that it touches.
type selectBand struct{ from geom.Point }

func (selectBand) Name() string { return "select.band" }
func (selectBand) Hint() string {
	return "To the right: selects what is enclosed. To the left: all it touches. Shift adds or removes."
}

func (s selectBand) Handle(e Event, env Env) (State, []Effect) {
	hide := Band{Area: geom.EmptyRect()}
	switch e := e.(type) {
	case Press: // the release was lost
		next, effects := selectIdle{}.Handle(e, env)
		return next, append([]Effect{hide}, effects...)
	case Move:
		return s, []Effect{Band{Area: geom.RectOf(s.from, e.At), Touch: e.At.X < s.from.X}}
	case Release:
		keys := env.In(geom.RectOf(s.from, e.At), e.At.X >= s.from.X)
		if e.Mods&ModAdd != 0 {
			keys = toggle(env.Selection(), keys...)
		}
		return selectIdle{}, []Effect{hide, Select{keys}}
	case Cancel:
		return selectIdle{}, []Effect{hide}
	}
	return s, nil
}
