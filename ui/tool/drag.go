package tool

import (
	"strconv"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// selectDragging moves or copies the selection. It keeps the total way, never
// the last preview, so that nothing adds up.
type selectDragging struct {
	keys  []schematic.Key
	from  geom.Point
	by    geom.Point
	copy  bool
	shown bool
}

func (selectDragging) Name() string { return "select.dragging" }
func (s selectDragging) Hint() string {
	if s.copy {
		return "Let go to put the copy here. Alt leaves the grid, Esc cancels."
	}
	return "Let go to move. Ctrl copies, Alt leaves the grid, Esc cancels."
}

func (s selectDragging) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Press: // the release was lost
		next, effects := selectIdle{}.Handle(e, env)
		return next, append([]Effect{Preview{}}, effects...)
	case Move:
		by, copies := travel(s.from, e.At, e.Mods), e.Mods&ModCopy != 0
		if s.shown && by == s.by && copies == s.copy {
			return s, nil
		}
		s.by, s.copy, s.shown = by, copies, true
		return s, []Effect{Preview{s.edit(env)}}
	case Release:
		s.by, s.copy = travel(s.from, e.At, e.Mods), e.Mods&ModCopy != 0
		if s.by == (geom.Point{}) {
			return selectIdle{}, []Effect{Preview{}}
		}
		verb := "move "
		if s.copy {
			verb = "copy "
		}
		return selectIdle{}, []Effect{Preview{}, Commit{verb + called(env.Doc(), s.keys), s.edit(env)}}
	case Cancel:
		return selectIdle{}, []Effect{Preview{}}
	case DocChanged:
		for _, k := range s.keys {
			if env.Doc().Get(k) == nil {
				return selectIdle{}, []Effect{Preview{}}
			}
		}
		return s, []Effect{Preview{s.edit(env)}}
	}
	return s, nil
}

func (s selectDragging) edit(env Env) func(*edit.Tx) error {
	sheet := env.Sheet()
	return func(tx *edit.Tx) error {
		if s.copy {
			return edit.Duplicate(tx, sheet, s.keys, s.by)
		}
		return edit.Move(tx, sheet, s.keys, s.by)
	}
}

// called names items in a label: "F3", or "4 items".
func called(d *schematic.Doc, keys []schematic.Key) string {
	if len(keys) != 1 {
		return strconv.Itoa(len(keys)) + " items"
	}
	it := d.Get(keys[0])
	if it == nil {
		return "1 item"
	}
	if name := schematic.NameOf(it); name != "" {
		return name
	}
	return schematic.Describe(it)
}
