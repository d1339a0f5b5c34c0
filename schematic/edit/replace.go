package edit

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"loomwright/schematic"
)

// Field is a text of an item that can be searched and replaced.
type Field string

const (
	Designations Field = "designation"
	Purposes     Field = "what it does"
	Circuits     Field = "circuit"
	Notes        Field = "notes" // of parts, wires and sheets, and notes on the sheet
	PartNumbers  Field = "part number"
	PinTitles    Field = "pin title"
	Colors       Field = "colour"
	SheetNames   Field = "sheet name"
)

// Fields lists the texts in the order they are offered.
func Fields() []Field {
	return []Field{Designations, Purposes, Circuits, Notes, PartNumbers, PinTitles, Colors, SheetNames}
}

// Search says what to look for and what to put in its place.
type Search struct {
	Find, With string
	MatchCase  bool
	Whole      bool // the text found must stand by itself, not within a word
	Fields     []Field
}

// Match is one text in which something was found.
type Match struct {
	Key   schematic.Key
	Field Field
	Pin   string // whose title it is
	Was   string
	Is    string // what it would become
}

// FindText returns the texts of the given items that hold what is looked for, in
// the order of the keys. An empty search finds nothing.
func FindText(d *schematic.Doc, keys []schematic.Key, s Search) []Match {
	if s.Find == "" {
		return nil
	}
	var out []Match
	for _, k := range keys {
		for _, t := range textsOf(d.Get(k)) {
			if !slices.Contains(s.Fields, t.Field) {
				continue
			}
			if is, found := s.replace(t.Was); found {
				t.Key, t.Is = k, is
				out = append(out, t)
			}
		}
	}
	return out
}

// textsOf lists the texts of an item.
func textsOf(it schematic.Item) []Match {
	switch it := it.(type) {
	case *schematic.Part:
		all := []Match{{Field: Designations, Was: it.Name}, {Field: Purposes, Was: it.Label}, {Field: PartNumbers, Was: it.Number}, {Field: Notes, Was: it.Notes}}
		for _, pin := range it.Pins {
			all = append(all, Match{Field: PinTitles, Pin: pin.Name, Was: pin.Title})
		}
		return all
	case *schematic.Wire:
		return []Match{{Field: Designations, Was: it.Name}, {Field: Circuits, Was: it.Circuit}, {Field: Colors, Was: it.Color.String()}, {Field: Notes, Was: it.Notes}}
	case *schematic.Note:
		return []Match{{Field: Notes, Was: it.Text}}
	case *schematic.Sheet:
		return []Match{{Field: SheetNames, Was: it.Name}, {Field: Notes, Was: it.Notes}}
	}
	return nil
}

// replace returns the text with every find replaced.
func (s Search) replace(text string) (string, bool) {
	var b strings.Builder
	found := false
	for at := 0; ; {
		from, to := s.index(text, at)
		if from < 0 {
			b.WriteString(text[at:])
			return b.String(), found
		}
		b.WriteString(text[at:from] + s.With)
		at, found = to, true
	}
}

// index returns where the next find at or after a place begins and ends, or -1.
func (s Search) index(text string, at int) (from, to int) {
	for i := at; i < len(text); {
		if n := s.at(text[i:]); n > 0 && (!s.Whole || alone(text, i, i+n)) {
			return i, i + n
		}
		_, n := utf8.DecodeRuneInString(text[i:])
		i += n
	}
	return -1, -1
}

// at returns how many bytes of the text are a find at its very start, or 0.
func (s Search) at(text string) int {
	if s.MatchCase {
		if strings.HasPrefix(text, s.Find) {
			return len(s.Find)
		}
		return 0
	}
	n := 0
	for _, want := range s.Find {
		got, size := utf8.DecodeRuneInString(text[n:])
		if size == 0 || unicode.ToLower(got) != unicode.ToLower(want) {
			return 0
		}
		n += size
	}
	return n
}

// alone reports whether text[from:to] has no letter or digit right beside it.
func alone(text string, from, to int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:from])
	after, _ := utf8.DecodeRuneInString(text[to:])
	inWord := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	return (from == 0 || !inWord(before)) && (to == len(text) || !inWord(after))
}

// Check returns why a match cannot be replaced as it stands, nil when it can.
func (m Match) Check() error {
	switch m.Field {
	case Designations, SheetNames:
		if strings.TrimSpace(m.Is) == "" {
			return fmt.Errorf("a %s cannot be empty", m.Field)
		}
	case Colors:
		if _, err := schematic.ParseColor(m.Is); err != nil {
			return err
		}
	}
	return nil
}

// ReplaceText puts what matches would become in the place of what they were, in
// one go: designations may be exchanged among each other. It refuses a text
// that has changed since it was found, and a designation that would be borne
// twice.
func ReplaceText(tx *Tx, matches []Match) error {
	d := tx.doc
	names := map[string]schematic.Key{}
	for _, m := range matches {
		it := d.Get(m.Key)
		if !slices.ContainsFunc(textsOf(it), func(t Match) bool { return t.Field == m.Field && t.Pin == m.Pin && t.Was == m.Was }) {
			return fmt.Errorf("%s is no longer as it was found: search again", schematic.Describe(it))
		}
		if err := m.Check(); err != nil {
			return fmt.Errorf("%s: %w", schematic.Describe(it), err)
		}
		if m.Field == Designations {
			name := strings.TrimSpace(m.Is)
			if other, twice := names[name]; twice {
				return fmt.Errorf("%s and %s would both be %s: untick one", schematic.NameOf(d.Get(other)), schematic.NameOf(it), name)
			}
			names[name] = m.Key
			tx.Put(named(it, name))
			continue
		}
		if err := m.put(tx); err != nil {
			return err
		}
	}
	if len(names) == 0 {
		return nil
	}
	for it := range tx.doc.All() {
		name := schematic.NameOf(it)
		if k, renamed := names[name]; renamed && k != it.Key() {
			return fmt.Errorf("%s is taken by %s: untick it, or choose other words", name, taker(d, it.Key()))
		}
	}
	return nil
}

// put replaces one text that is not a designation.
func (m Match) put(tx *Tx) error {
	is := strings.TrimSpace(m.Is)
	if m.Field == Notes {
		is = m.Is
	}
	switch m.Key.Type {
	case schematic.TypePart:
		return SetPart(tx, m.Key.ID, func(p *schematic.Part) {
			switch m.Field {
			case Purposes:
				p.Label = is
			case PartNumbers:
				p.Number = is
			case Notes:
				p.Notes = is
			case PinTitles:
				for i := range p.Pins {
					if p.Pins[i].Name == m.Pin {
						p.Pins[i].Title = is
					}
				}
			}
		})
	case schematic.TypeWire:
		return SetWire(tx, m.Key.ID, func(w *schematic.Wire) {
			switch m.Field {
			case Circuits:
				w.Circuit = is
			case Notes:
				w.Notes = is
			case Colors:
				if c, err := schematic.ParseColor(is); err == nil { // checked before
					w.Color = c
				}
			}
		})
	case schematic.TypeNote:
		return SetNote(tx, m.Key.ID, func(n *schematic.Note) { n.Text = is })
	case schematic.TypeSheet:
		return SetSheet(tx, m.Key.ID, func(s *schematic.Sheet) {
			if m.Field == SheetNames {
				s.Name = is
			} else {
				s.Notes = is
			}
		})
	}
	return nil
}
