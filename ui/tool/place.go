package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// placeHolding has a part at the pointer until Esc.
type placeHolding struct {
	kind   string
	orient geom.Orient
	at     geom.Point
	wire   schematic.ID // it would be put into this wire
	free   bool
	shown  bool
	guides *guides // nil until the pointer is on the sheet
}

func (placeHolding) Name() string { return "place.holding" }
func (s placeHolding) Hint() string {
	if (s.wire != schematic.ID{}) {
		return "Click to put it into the wire. Alt places it beside, Esc ends."
	}
	return "Click or press Enter to place, again for another. R turns, M mirrors, Alt leaves grid and guides, Esc ends."
}

func (s placeHolding) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Move:
		was := s
		s.point(env, e.At, e.Mods)
		if s.at == was.at && s.wire == was.wire && s.free == was.free && was.shown {
			return s, nil
		}
		return s, s.show(env)
	case Press:
		if e.Clicks > 1 && s.taken(env, s.at) {
			return s, nil // the second half of a double click
		}
		s.point(env, e.At, e.Mods)
		s.stepAside(env)
		do := s.edit(env)
		// The next one is shown when the pointer moves on: now it would only
		// cover this one.
		s.shown, s.guides = false, nil
		return s, []Effect{Preview{}, Guides{}, Mark{}, Commit{"place " + s.title(env), do}}
	case KeyPress:
		switch e.Name {
		case "R":
			s.orient = s.orient.Turn(1)
		case "M":
			s.orient = s.orient.Flip()
		default:
			return s, nil
		}
		s.guides = nil
		if s.shown {
			return s, []Effect{Preview{s.edit(env)}, Guides{}, Mark{s.marks(env)}}
		}
	case DocChanged:
		s.guides = nil
		if env.Doc().Kind(s.kind) == nil {
			return s, []Effect{Preview{}, Guides{}, Mark{}, Done{}}
		}
		if env.Doc().Wire(s.wire) == nil {
			s.wire = schematic.ID{}
		}
		if s.shown {
			return s, []Effect{Preview{s.edit(env)}, Guides{}, Mark{s.marks(env)}}
		}
	case Cancel:
		s.shown = false
		return s, []Effect{Preview{}, Guides{}, Mark{}, Done{}}
	}
	return s, nil
}

// leave keeps the part in hand while another sheet comes in sight.
func (s placeHolding) leave(Env) (State, []Effect) {
	s.wire, s.shown, s.guides = schematic.ID{}, false, nil
	return s, []Effect{Preview{}, Guides{}, Mark{}}
}

func (s placeHolding) show(env Env) []Effect {
	lines := Guides{}
	if !s.free && (s.wire == schematic.ID{}) {
		lines.Lines = s.guides.lines(s.at)
	}
	return []Effect{Preview{s.edit(env)}, lines, Mark{s.marks(env)}}
}

// marks are the pins that a wire would be led to.
func (s placeHolding) marks(env Env) []geom.Point {
	if (s.wire == schematic.ID{}) {
		return nil
	}
	tx := edit.Begin(env.Doc(), nil)
	if s.edit(env)(tx) != nil {
		return nil
	}
	return wiredPins(tx.Doc(), env.Sheet(), tx.Selected())
}

func (s *placeHolding) point(env Env, p geom.Point, mods Mods) {
	if s.guides == nil {
		s.guides = guidesToPlace(env, func(tx *edit.Tx) error {
			return edit.PlacePart(tx, s.kind, env.Sheet(), geom.Point{}, s.orient)
		})
	}
	s.at, s.shown, s.wire = p, true, schematic.ID{}
	if s.free = mods&ModFree != 0; !s.free {
		s.at = s.guides.snap(p)
	}
	if s.free || !edit.FitsOnWire(env.Doc(), s.kind) {
		return
	}
	// What a wire can run through goes into the wire under it.
	if hit := env.Hit(p); hit.Ok && hit.Key.Type == schematic.TypeWire && !edit.Locked(env.Doc(), hit.Key) {
		if t, ok := targetOf(env, edit.Anchor{Wire: hit.Key.ID, At: p}); ok {
			s.wire, s.at = hit.Key.ID, t.at
		}
	}
}

// stepAside leaves a place where a part lies already, to the right, until there
// is room: pressing Enter again and again lays a row.
func (s *placeHolding) stepAside(env Env) {
	if (s.wire != schematic.ID{}) {
		return
	}
	for s.taken(env, s.at) {
		s.at.X += s.width()
	}
}

// taken reports whether the origin of a symbol lies at a place.
func (s *placeHolding) taken(env Env, at geom.Point) bool {
	for p := range env.Doc().Parts() {
		for _, v := range p.Views {
			if v.Sheet == env.Sheet() && v.At == at {
				return true
			}
		}
	}
	return false
}

// width is how far two parts of the kind in hand keep apart, in whole grid steps.
func (s *placeHolding) width() int {
	room := geom.EmptyRect()
	if s.guides != nil {
		for _, r := range s.guides.edges {
			room = room.Union(r)
		}
		for _, p := range s.guides.pins {
			room = room.Extend(p)
		}
	}
	if room.Empty() {
		return 4 * geom.Grid
	}
	return (room.Width()+geom.Grid-1)/geom.Grid*geom.Grid + 4*geom.Grid // a designation stands between
}

func (s placeHolding) edit(env Env) func(*edit.Tx) error {
	sheet := env.Sheet()
	return func(tx *edit.Tx) error {
		if (s.wire != schematic.ID{}) {
			return edit.PlaceOnWire(tx, s.kind, s.wire, s.at, s.orient)
		}
		return edit.PlacePart(tx, s.kind, sheet, s.at, s.orient)
	}
}

func (s placeHolding) title(env Env) string {
	if k := env.Doc().Kind(s.kind); k != nil && k.Title != "" {
		return k.Title
	}
	return s.kind
}
