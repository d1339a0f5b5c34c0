package netlist

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
)

// settings answers what an operating state says about one branch.
type settings struct {
	by    map[setKey]schematic.Setting
	notes []string
}

type setKey struct {
	part schematic.ID
	item string
}

func settingsOf(d *schematic.Doc, st *schematic.State) *settings {
	s := &settings{by: make(map[setKey]schematic.Setting, len(st.Set))}
	for _, x := range st.Set {
		s.by[setKey{x.Part, x.Item}] = x
		if p := d.Part(x.Part); p != nil {
			s.note(st, p, d.KindOf(p), x)
		}
	}
	return s
}

// StateNotes lists what an operating state asks for and the parts do not have,
// such as a position that a switch has not.
func StateNotes(d *schematic.Doc, st *schematic.State) []string { return settingsOf(d, st).notes }

// note records what a setting asks for and the part does not have.
func (s *settings) note(st *schematic.State, p *schematic.Part, k *schematic.Kind, x schematic.Setting) {
	if k == nil {
		return // an unknown kind has nothing to set, and is a finding of its own
	}
	isPin := k.OwnPins && slices.ContainsFunc(p.Pins, func(pin schematic.Pin) bool { return pin.Name == x.Item })
	isElement := slices.ContainsFunc(k.Elements, func(e schematic.Element) bool { return e.Name == x.Item })
	switch {
	case x.Item != "" && !isPin && !isElement:
		s.notes = append(s.notes, fmt.Sprintf("state %q sets %q of %s, which has no such pin or element", st.Name, x.Item, p.Name))
	case x.Position == "" || slices.Contains(k.Positions, x.Position):
	case len(k.Positions) == 0 && (x.Position == "on" || x.Position == "off"):
	case len(k.Positions) == 0:
		s.notes = append(s.notes, fmt.Sprintf("state %q puts %s to %q, but it has no positions", st.Name, p.Name, x.Position))
	default:
		s.notes = append(s.notes, fmt.Sprintf("state %q puts %s to %q, but its positions are %s", st.Name, p.Name, x.Position, strings.Join(k.Positions, ", ")))
	}
}

// find returns the setting for the branch itself, else for its whole part.
func (s *settings) find(br *Branch, has func(schematic.Setting) bool) (schematic.Setting, bool) {
	item := br.Element.Name
	if br.Pin != nil {
		item = br.Pin.Name
	}
	for _, key := range []setKey{{br.Part.ID, item}, {br.Part.ID, ""}} {
		if x, ok := s.by[key]; ok && has(x) {
			return x, true
		}
	}
	return schematic.Setting{}, false
}

// position reports whether a switch contact or output is closed. Everything
// else is, unless its part has no positions of its own and is put to "off".
func (s *settings) position(br *Branch) bool {
	x, given := s.find(br, func(x schematic.Setting) bool { return x.Position != "" })
	switch br.Element.Type {
	case schematic.ElemOutput:
		return given && x.Position == "on"
	case schematic.ElemContact:
		if br.Element.Coil != "" {
			return false // the coil decides
		}
		pos := ""
		if len(br.Kind.Positions) > 0 {
			pos = br.Kind.Positions[0]
		}
		if given && slices.Contains(br.Kind.Positions, x.Position) {
			pos = x.Position
		}
		return slices.Contains(br.Element.In, pos)
	}
	return !given || x.Position != "off" || len(br.Kind.Positions) > 0
}

// duty returns the share of time a load draws, 0 to 1; 1 where nothing is said.
func (s *settings) duty(br *Branch) float64 {
	if !br.IsLoad() {
		return 1
	}
	x, ok := s.find(br, func(x schematic.Setting) bool { return x.Duty.Known() })
	if !ok {
		return 1
	}
	return min(max(x.Duty.Or(1), 0), 1)
}
