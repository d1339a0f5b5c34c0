package edit

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
)

// carry puts a kind that is the user's own into the document: the file shall be
// complete wherever it is opened.
func (tx *Tx) carry(k *schematic.Kind) {
	if tx.doc.Library().Lent(k.Name) && tx.doc.Library().Kind(k.Name) == k {
		c := *k
		c.ID = tx.NewID()
		tx.Put(&c)
	}
}

// Renamed says which pins and pieces of the symbol of a kind bear other names
// now: from the old name to the new one.
type Renamed struct{ Pins, Pieces map[string]string }

// SetKind adds a part kind to the document, or changes the one with its ID. Its
// parts follow: their wires are led to where the pins are now, and values that
// the kind no longer has go. A change that would take a pin from a wire, or a
// symbol from a sheet, is refused and says which. What refers to something that
// is renamed follows, and pieces the symbol did not have are put beside the
// first where there is room.
func SetKind(tx *Tx, k *schematic.Kind, renamed Renamed) error {
	c := *k
	c.Name = strings.TrimSpace(c.Name)
	old, _ := tx.doc.Get(c.Key()).(*schematic.Kind)
	switch same := tx.doc.Kind(c.Name); {
	case c.Name == "":
		return fmt.Errorf("a part kind needs a name")
	case same != nil && same != old && !(tx.doc.Library().Lent(c.Name) && tx.doc.Library().Kind(c.Name) == same):
		return fmt.Errorf("there is a part kind %q already: choose another title", c.Name)
	}
	if ps := schematic.CheckKind(&c); len(ps) > 0 {
		return fmt.Errorf("part kind %q: %s", c.Name, ps[0])
	}
	if old == nil {
		if (c.ID == schematic.ID{}) {
			c.ID = tx.NewID()
		}
		tx.Put(&c)
		return nil
	}
	before := tx.doc
	users := PartsOfKind(before, old.Name)
	puts := []schematic.Item{&c}
	for _, p := range users {
		q := ownPart(p)
		q.Kind = c.Name
		for name := range q.Values {
			if !takes(&c, name) {
				delete(q.Values, name)
			}
		}
		for i, v := range q.Views {
			if to, ok := renamed.Pieces[v.Section]; ok {
				q.Views[i].Section = to
			}
			if _, ok := c.Section(q.Views[i].Section); !ok {
				return fmt.Errorf("%s still shows the piece %q: delete that symbol on the sheet first", p.Name, v.Section)
			}
		}
		tidyPart(q)
		puts = append(puts, q)
	}
	if old.Name != c.Name {
		for other := range before.OwnKinds() {
			if other.OtherHalf == old.Name && other.ID != c.ID {
				o := *other
				o.OtherHalf = c.Name
				puts = append(puts, &o)
			}
		}
	}
	tx.Put(puts...)
	if !old.OwnPins {
		tx.followPins(users, renamed.Pins)
		if err := tx.showPieces(users, old, &c, renamed.Pieces); err != nil {
			return err
		}
	}
	var ids []schematic.ID
	for _, p := range users {
		now := tx.doc.Part(p.ID)
		if err := validPart(tx.doc, now); err != nil {
			return err
		}
		if err := tx.pinsHeld(now); err != nil {
			return err
		}
		ids = append(ids, p.ID)
	}
	return tx.leadAt(before, ids...)
}

// showPieces shows what the symbol of a kind has gained beside the first symbol
// of each part.
func (tx *Tx) showPieces(parts []*schematic.Part, old, now *schematic.Kind, renamed map[string]string) error {
	had := map[string]bool{}
	for _, s := range old.Sections {
		name := s.Name
		if to, ok := renamed[name]; ok {
			name = to
		}
		had[name] = true
	}
	selected, selects := tx.selected, tx.selects
	defer func() { tx.selected, tx.selects = selected, selects }()
	for _, s := range now.Sections {
		i := slices.IndexFunc(now.Pins, func(p schematic.Pin) bool { return p.Section == s.Name })
		if had[s.Name] || i < 0 {
			continue
		}
		for _, p := range parts {
			if len(p.Views) == 0 {
				continue
			}
			first := p.Views[0]
			if _, err := tx.showNear(schematic.PinRef{Part: p.ID, Pin: now.Pins[i].Name}, first.Sheet, first.At); err != nil {
				return err
			}
		}
	}
	return nil
}

// PartsOfKind returns the parts of a kind, by name.
func PartsOfKind(d *schematic.Doc, kind string) []*schematic.Part {
	var ps []*schematic.Part
	for p := range d.Parts() {
		if p.Kind == kind {
			ps = append(ps, p)
		}
	}
	slices.SortFunc(ps, schematic.CompareItems[*schematic.Part])
	return ps
}

// followPins leads wires, readings and settings of parts to the pins that bear
// other names now, all at once: two may have changed places.
func (tx *Tx) followPins(parts []*schematic.Part, renamed map[string]string) {
	if len(renamed) == 0 {
		return
	}
	mine := map[schematic.ID]bool{}
	for _, p := range parts {
		mine[p.ID] = true
	}
	follow := func(part schematic.ID, pin *string) bool {
		to, ok := renamed[*pin]
		if ok = ok && mine[part]; ok {
			*pin = to
		}
		return ok
	}
	var puts []schematic.Item
	for w := range tx.doc.Wires() {
		c := *w
		a, b := follow(c.A.Part, &c.A.Pin), follow(c.B.Part, &c.B.Pin)
		if a || b {
			puts = append(puts, &c)
		}
	}
	for m := range tx.doc.Readings() {
		c := *m
		a, b := follow(c.From.Part, &c.From.Pin), follow(c.To.Part, &c.To.Pin)
		if a || b {
			puts = append(puts, &c)
		}
	}
	tx.Put(puts...)
	tx.editSettings(func(s schematic.Setting) (schematic.Setting, bool) {
		follow(s.Part, &s.Item)
		return s, true
	})
}

// DeleteKind removes a kind of the document that no part is of.
func DeleteKind(tx *Tx, id schematic.ID) error {
	k, ok := tx.doc.Get(schematic.Key{Type: schematic.TypeKind, ID: id}).(*schematic.Kind)
	if !ok {
		return fmt.Errorf("the part kind is no longer there")
	}
	if ps := PartsOfKind(tx.doc, k.Name); len(ps) > 0 {
		return fmt.Errorf("%s of the kind %q: delete them first, or make them of another kind", usedBy(ps), k.Title)
	}
	tx.Delete(k.Key())
	return nil
}

// usedBy names some parts: "F1 is", "F1, F2 and 3 more parts are".
func usedBy(ps []*schematic.Part) string {
	const most = 6
	var names []string
	for _, p := range ps[:min(len(ps), most)] {
		names = append(names, p.Name)
	}
	switch {
	case len(ps) == 1:
		return names[0] + " is"
	case len(ps) > most:
		return fmt.Sprintf("%s and %d more parts are", strings.Join(names, ", "), len(ps)-most)
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1] + " are"
}
