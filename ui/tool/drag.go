package tool

import (
	"slices"
	"strconv"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// selectDragging moves or copies the selection. It keeps the total way, never
// the last preview, so that nothing adds up.
type selectDragging struct {
	keys   []schematic.Key
	from   geom.Point
	by     geom.Point
	copy   bool
	free   bool
	shown  bool
	held   bool // some of the keys are locked and stay
	guides *guides
}

// dragging starts to move a selection.
func dragging(keys []schematic.Key, from geom.Point, env Env) selectDragging {
	held := slices.ContainsFunc(keys, func(k schematic.Key) bool { return edit.Locked(env.Doc(), k) })
	return selectDragging{keys: keys, from: from, held: held, guides: guidesFor(env, keys)}
}

func (selectDragging) Name() string { return "select.dragging" }
func (s selectDragging) Hint() string {
	if s.held && !s.copy {
		return "Let go to move; what is locked stays. Alt leaves grid and guides, Esc cancels."
	}
	if s.copy {
		return "Let go to put the copy here. Alt leaves grid and guides, Esc cancels."
	}
	return "Let go to move. Ctrl copies, Alt leaves grid and guides, Esc cancels."
}

func (s selectDragging) Handle(e Event, env Env) (State, []Effect) {
	still := []Effect{Preview{}, Guides{}}
	switch e := e.(type) {
	case Press: // the release was lost
		next, effects := selectIdle{}.Handle(e, env)
		return next, append(still, effects...)
	case Move:
		by, copies, free := s.travel(e.At, e.Mods), e.Mods&ModCopy != 0, e.Mods&ModFree != 0
		if s.shown && by == s.by && copies == s.copy && free == s.free {
			return s, nil
		}
		s.by, s.copy, s.free, s.shown = by, copies, free, true
		return s, []Effect{Preview{s.edit(env)}, s.lines()}
	case Release:
		s.by, s.copy = s.travel(e.At, e.Mods), e.Mods&ModCopy != 0
		if s.by == (geom.Point{}) {
			return selectIdle{}, still
		}
		verb := "move "
		if s.copy {
			verb = "copy "
		}
		return selectIdle{}, append(still, Commit{verb + called(env.Doc(), s.keys), s.edit(env)})
	case Cancel:
		return selectIdle{}, still
	case DocChanged:
		for _, k := range s.keys {
			if env.Doc().Get(k) == nil {
				return selectIdle{}, still
			}
		}
		s.guides = guidesFor(env, s.keys)
		return s, []Effect{Preview{s.edit(env)}, s.lines()}
	}
	return s, nil
}

// travel returns how far the selection goes for a pointer at a place.
func (s selectDragging) travel(at geom.Point, mods Mods) geom.Point {
	if mods&ModFree != 0 {
		return at.Sub(s.from)
	}
	return s.guides.snap(at.Sub(s.from))
}

func (s selectDragging) lines() Guides {
	if s.free {
		return Guides{}
	}
	return Guides{s.guides.lines(s.by)}
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
