package edit

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// OnlyDrawn reports whether a changed item says the same as before, but is drawn
// in another place or another way.
func (d Difference) OnlyDrawn() bool {
	return d.Before != nil && d.After != nil && !slices.ContainsFunc(d.Fields, func(f FieldDifference) bool { return !f.Drawn })
}

// drawnField reports whether a field, by its path, says only where or how an
// item is drawn.
func drawnField(it schematic.Item, path string) bool {
	last := path[strings.LastIndexByte(path, '.')+1:]
	switch it.(type) {
	case *schematic.Part:
		return strings.HasPrefix(path, ".views[") && slices.Contains([]string{"at", "turns", "mirror", "tag"}, last)
	case *schematic.Wire:
		return slices.Contains([]string{".via", ".tag", ".a.view", ".b.view"}, path)
	case *schematic.Note:
		return slices.Contains([]string{"at", "width", "height", "size"}, last)
	}
	return false
}

// String says the difference on one line, as a builder would: "W3: 1.5 mm² →
// 2.5 mm²". What is only drawn elsewhere is said in a word.
func (d Difference) String() string {
	name := d.Name()
	switch {
	case d.Before == nil || d.After == nil:
		if d.About != "" {
			return name + " " + d.What() + ": " + d.About
		}
		return name + " " + d.What()
	case d.OnlyDrawn():
		return name + " " + d.drawnHow()
	}
	return name + ": " + d.Short()
}

// Name is how people call the item: parts and wires by the designation alone.
func (d Difference) Name() string {
	switch it := d.Item().(type) {
	case *schematic.Part, *schematic.Wire:
		if name := schematic.NameOf(it); name != "" {
			return name
		}
	}
	return schematic.Describe(d.Item())
}

// Short says what is different without the name: "1.5 mm² → 2.5 mm²; length
// 900 mm → 1200 mm".
func (d Difference) Short() string {
	if d.Before == nil || d.After == nil {
		return d.About
	}
	if d.OnlyDrawn() {
		return d.drawnHow()
	}
	var said []string
	drawn := false
	for _, f := range d.Fields {
		if f.Drawn {
			drawn = true
			continue
		}
		said = append(said, f.String())
	}
	if drawn {
		said = append(said, d.drawnHow())
	}
	return strings.ReplaceAll(strings.Join(said, "; "), "\n", " / ")
}

// String says one field on one line. Size and colour speak for themselves where
// both are given.
func (f FieldDifference) String() string {
	switch {
	case (f.Name == "size" || f.Name == "colour") && f.Before != "" && f.After != "":
		return f.Before + " → " + f.After
	case f.After == "there":
		return f.Name + " added"
	case f.Before == "there":
		return f.Name + " removed"
	}
	return f.Name + " " + OrNone(f.Before) + " → " + OrNone(f.After)
}

// OrNone says in words that a value is not given.
func OrNone(value string) string {
	if value == "" {
		return "not given"
	}
	return value
}

// drawnHow says in a word how an item is drawn otherwise.
func (d Difference) drawnHow() string {
	word := ""
	for _, f := range d.Fields {
		_, name, inside := strings.Cut(f.Name, ": ")
		if !inside {
			name = f.Name
		}
		now := ""
		switch {
		case !f.Drawn:
			continue
		case name == "turned" || name == "mirrored":
			now = "turned"
		case name == "bends" || name == "symbol it ends at":
			now = "drawn another way"
		case name == "place of the label":
			now = "label moved"
		case name == "place":
			now = "moved"
		default:
			now = "drawn another size"
		}
		switch {
		case word == "" || word == "label moved":
			word = now
		case word != now && now != "label moved":
			word = "moved and turned"
		}
	}
	return word
}

// about says in short what an item is, for a list of what came and went.
func (w *words) about(it schematic.Item) string {
	var said []string
	say := func(s string) {
		if s != "" {
			said = append(said, s)
		}
	}
	switch it := it.(type) {
	case *schematic.Part:
		k := w.doc.KindOf(it)
		if k != nil {
			say(k.Title)
		}
		if k == nil || !strings.EqualFold(k.Title, it.Label) {
			say(it.Label)
		}
	case *schematic.Wire:
		say(w.endName(it.A) + " to " + w.endName(it.B))
		if it.Size != (unit.Size{}) {
			say(it.Size.String())
		}
		say(it.Color.String())
	case *schematic.Note:
		return ""
	}
	return strings.ReplaceAll(strings.Join(said, ", "), "\n", " / ")
}

func (w *words) endName(e schematic.End) string {
	if e.Loose() {
		return "a loose end"
	}
	return fmt.Sprintf("%s pin %s", w.nameOf(e.Part), e.Pin)
}

// DrawnOnly says in one line what is only drawn elsewhere: "12 parts and 3 wires
// only drawn elsewhere or another way". It is empty when nothing is.
func DrawnOnly(all []Difference) string {
	parts, wires, others := 0, 0, 0
	for _, d := range all {
		if !d.OnlyDrawn() {
			continue
		}
		switch d.Item().(type) {
		case *schematic.Part:
			parts++
		case *schematic.Wire:
			wires++
		default:
			others++
		}
	}
	var said []string
	for _, n := range []struct {
		n    int
		word string
	}{{parts, "part"}, {wires, "wire"}, {others, "note"}} {
		switch {
		case n.n == 1:
			said = append(said, "1 "+n.word)
		case n.n > 1:
			said = append(said, fmt.Sprintf("%d %ss", n.n, n.word))
		}
	}
	if len(said) == 0 {
		return ""
	}
	last := said[len(said)-1]
	if len(said) > 1 {
		last = strings.Join(said[:len(said)-1], ", ") + " and " + last
	}
	return last + " only drawn elsewhere or another way"
}

// Report writes differences as lines of text, one each: what happened, to what,
// and how. What is only drawn elsewhere is named in one line at the end, before
// the count.
func Report(all []Difference) string {
	if len(all) == 0 {
		return "the drawings are the same\n"
	}
	var b strings.Builder
	n := map[string]int{}
	var drawn []string
	for _, d := range all {
		if d.OnlyDrawn() {
			drawn = append(drawn, d.Name())
			continue
		}
		n[d.What()]++
		fmt.Fprintf(&b, "%-8s %s\n", d.What(), d.line())
	}
	if len(drawn) > 0 {
		fmt.Fprintf(&b, "%-8s %s: %s\n", "drawn", DrawnOnly(all), strings.Join(drawn, ", "))
	}
	fmt.Fprintf(&b, "%d added, %d removed, %d changed\n", n["added"], n["removed"], n["changed"])
	return b.String()
}

// line is the name and what is different, for where another column says what
// happened.
func (d Difference) line() string {
	if short := d.Short(); short != "" {
		return d.Name() + ": " + short
	}
	return d.Name()
}
