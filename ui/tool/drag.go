package tool

import (
	"slices"
	"strconv"
	"unicode"
	"unicode/utf8"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// selectDragging moves or copies the selection, puts it into a wire that it
// comes to lie on, and with Shift lifts it out of the wire it is in. It keeps
// the total way, never the last preview, so that nothing adds up.
type selectDragging struct {
	carry
	from   geom.Point
	free   bool
	shown  bool
	locked bool   // some of the keys are locked and stay
	fixed  bool   // all of them are: they can only be copied
	inWire bool   // a wire runs through it
	to     string // the wire it would go into
	pins   []geom.Point
	guides *guides
}

// dragging starts to move a selection.
func dragging(keys []schematic.Key, hit Hit, from geom.Point, env Env) selectDragging {
	keys = withMate(env.Doc(), env.Sheet(), keys)
	var hold []edit.Symbol
	if hit.Key.Type == schematic.TypePart {
		hold = []edit.Symbol{{Part: hit.Key.ID, View: hit.View}}
	}
	isLocked := func(k schematic.Key) bool { return edit.Locked(env.Doc(), k) }
	isFree := func(k schematic.Key) bool { return !isLocked(k) }
	return selectDragging{carry: carry{keys: keys, held: hold}, from: from, locked: slices.ContainsFunc(keys, isLocked), fixed: !slices.ContainsFunc(keys, isFree), inWire: canLift(env.Doc(), keys), guides: guidesFor(env, keys, hold...)}
}

func (selectDragging) Name() string { return "select.dragging" }
func (s selectDragging) Hint() string {
	switch {
	case s.fixed && !s.copies:
		return "This is locked in place and stays. Ctrl copies it, Esc cancels."
	case s.to != "" && s.copies:
		return "Let go to put the copy into " + s.to + ". Alt keeps it out of the wire, Esc cancels."
	case s.to != "":
		return "Let go to put it into " + s.to + ". Alt keeps it out of the wire, Esc cancels."
	case s.locked && !s.copies:
		return "Let go to move; what is locked stays. Alt leaves grid and guides, Esc cancels."
	case s.copies:
		return "Let go to put the copy here. Alt leaves grid and guides, Esc cancels."
	case s.lift:
		return "Let go to take it out of its wire, which closes behind it. Alt leaves grid and guides, Esc cancels."
	case s.inWire:
		return "Let go to move. Shift takes it out of its wire, Ctrl copies, Alt leaves grid and guides, Esc cancels."
	}
	return "Let go to move. Ctrl copies, Alt leaves grid and guides, Esc cancels."
}

func (s selectDragging) Handle(e Event, env Env) (State, []Effect) {
	still := []Effect{Preview{}, Guides{}, Mark{}}
	switch e := e.(type) {
	case Press: // the release was lost
		next, effects := selectIdle{}.Handle(e, env)
		return next, append(still, effects...)
	case Move:
		was := s
		s.follow(e, env)
		if was.shown && s.by == was.by && s.into == was.into && s.copies == was.copies && s.lift == was.lift && s.free == was.free {
			return s, nil
		}
		s.shown = true
		return s, s.show(env)
	case Release:
		s.follow(Move(e), env)
		if s.by == (geom.Point{}) && !s.lift {
			return selectIdle{}, still
		}
		return selectIdle{}, append(still, Commit{s.label(env), s.edit(env)})
	case Cancel:
		return selectIdle{}, still
	case DocChanged:
		for _, k := range s.keys {
			if env.Doc().Get(k) == nil {
				return selectIdle{}, still
			}
		}
		s.guides, s.inWire = guidesFor(env, s.keys, s.held...), canLift(env.Doc(), s.keys)
		s.lift = s.lift && s.inWire
		s.land(env)
		return s, s.show(env)
	}
	return s, nil
}

// follow goes where the pointer is.
func (s *selectDragging) follow(e Move, env Env) {
	s.copies, s.free = e.Mods&ModCopy != 0, e.Mods&ModFree != 0
	s.lift = e.Mods&ModAdd != 0 && !s.copies && s.inWire
	if s.fixed && !s.copies {
		s.by, s.lift, s.into, s.to, s.pins = geom.Point{}, false, schematic.ID{}, "", nil
		return
	}
	s.by = e.At.Sub(s.from)
	if s.land(env); s.to == "" {
		s.by = s.travel(e.At, e.Mods)
	}
}

// land looks for a wire to go into.
func (s *selectDragging) land(env Env) {
	s.into, s.to, s.pins = schematic.ID{}, "", nil
	if s.free {
		return
	}
	if s.pins = s.carry.land(env); s.into != (schematic.ID{}) {
		s.by, s.to = s.by.Snap(geom.Grid), called(env.Doc(), []schematic.Key{{Type: schematic.TypeWire, ID: s.into}})
	}
}

// travel returns how far the selection goes for a pointer at a place.
func (s selectDragging) travel(at geom.Point, mods Mods) geom.Point {
	if mods&ModFree != 0 {
		return at.Sub(s.from)
	}
	return s.guides.snap(at.Sub(s.from))
}

func (s selectDragging) show(env Env) []Effect {
	if s.fixed && !s.copies {
		return []Effect{Preview{}, Guides{}, Mark{}}
	}
	lines := Guides{}
	if !s.free && s.to == "" {
		lines.Lines = s.guides.lines(s.by)
	}
	return []Effect{Preview{s.edit(env)}, lines, Mark{s.pins}}
}

func (s selectDragging) label(env Env) string {
	verb := "move "
	switch {
	case s.to != "" && s.copies:
		return "copy " + called(env.Doc(), s.keys[:1]) + " into " + s.to
	case s.to != "":
		return "put " + called(env.Doc(), s.keys[:1]) + " into " + s.to
	case s.copies:
		verb = "copy "
	case s.lift:
		verb = "take out "
	}
	return verb + called(env.Doc(), s.keys)
}

func (s selectDragging) edit(env Env) func(*edit.Tx) error {
	sheet, c := env.Sheet(), s.carry
	return func(tx *edit.Tx) error { return c.apply(tx, sheet) }
}

// sentence begins a text with a capital letter.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
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
