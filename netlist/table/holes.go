package table

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// HoleLine is one panel that a segment passes through, as typed or pasted: name,
// diameter of the hole, what sits in it, how far from the segment's beginning.
type HoleLine struct {
	Name, Diameter, Grommet, From string
}

// HoleFields lists the titles of a table of holes in the order of the fields.
func HoleFields() []string { return []string{"Panel", "Hole", "Grommet", "From the beginning"} }

// Field returns the text of a field, counted as [HoleFields] does.
func (l *HoleLine) Field(i int) *string {
	return []*string{&l.Name, &l.Diameter, &l.Grommet, &l.From}[i]
}

// HoleLines returns the holes of a segment as lines, lengths in units of the
// system, so that they can be read back.
func HoleLines(s schematic.Segment, units unit.System) []HoleLine {
	t := Table{Facts: Facts{Units: units}}
	lines := make([]HoleLine, len(s.Holes))
	for i, h := range s.Holes {
		lines[i] = HoleLine{h.Name, t.length(h.DiameterMM), h.Grommet, t.length(h.FromMM)}
	}
	return lines
}

// CheckHoleField says what is wrong with a text for a field of a hole.
func CheckHoleField(field int, text string) error {
	if text = strings.TrimSpace(text); text == "" || field%2 == 0 {
		return nil
	}
	_, err := unit.Parse(unit.Length, text)
	return err
}

// ReadHoles reads the lines of a table of holes; empty ones are left out.
func ReadHoles(lines []HoleLine) ([]schematic.Hole, error) {
	var holes []schematic.Hole
	for i, l := range lines {
		h := schematic.Hole{Name: strings.TrimSpace(l.Name), Grommet: strings.TrimSpace(l.Grommet)}
		for _, n := range []struct {
			text, what string
			to         *schematic.Num
		}{{l.Diameter, "hole", &h.DiameterMM}, {l.From, "from the beginning", &h.FromMM}} {
			if strings.TrimSpace(n.text) == "" {
				continue
			}
			mm, err := unit.Parse(unit.Length, n.text)
			if err != nil {
				return nil, fmt.Errorf("line %d: %s: %w", i+1, n.what, err)
			}
			*n.to = schematic.Some(mm)
		}
		switch {
		case h.Name == "" && h.Grommet == "" && !h.DiameterMM.Known() && !h.FromMM.Known():
		case h.Name == "":
			return nil, fmt.Errorf("line %d: name the panel the segment passes through, such as firewall", i+1)
		default:
			holes = append(holes, h)
		}
	}
	return holes, nil
}

// holesText says through which panels a segment runs, from its beginning on.
func holesText(t *Table, r Row) string {
	_, s := t.segment(r)
	holes := slices.Clone(s.Holes)
	slices.SortStableFunc(holes, func(a, b schematic.Hole) int {
		at, ok := a.FromMM.Get()
		to, known := b.FromMM.Get()
		switch {
		case ok && known && at < to:
			return -1
		case ok && known && at > to:
			return 1
		}
		return 0
	})
	var said []string
	for _, h := range holes {
		s := h.Name
		if d := t.length(h.DiameterMM); d != "" {
			s += " ⌀ " + d
		}
		if h.Grommet != "" {
			s += " with " + h.Grommet
		}
		said = append(said, s)
	}
	return strings.Join(said, ", ")
}
