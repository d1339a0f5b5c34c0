package edit

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
)

// SetPart changes the fields of a part: change gets a copy that is its own to
// write. Designation, values, pins, views and links to the loom are checked;
// mating goes through [Mate], pin names through [RenamePin]. Wires follow pins
// that move, and a pin that has a wire cannot go.
func SetPart(tx *Tx, id schematic.ID, change func(*schematic.Part)) error {
	old := tx.doc.Part(id)
	if old == nil {
		return fmt.Errorf("the part is no longer there")
	}
	c := ownPart(old)
	change(c)
	c.ID, c.Mate = old.ID, old.Mate
	c.Name = strings.TrimSpace(c.Name)
	if c.Name == "" {
		return fmt.Errorf("%s: a part needs a designation", old.Name)
	}
	if c.Name != old.Name {
		if err := free(tx.doc, c.Name, c.Key()); err != nil {
			return err
		}
	}
	if l := tx.doc.Loom(c.Loom); l == nil || !hasNode(l, c.Node) {
		c.Node = schematic.ID{}
	}
	tidyPart(c)
	if err := validPart(tx.doc, c); err != nil {
		return err
	}
	if err := knownValues(tx.doc, old, c); err != nil {
		return err
	}
	before := tx.doc
	tx.Put(c)
	if err := tx.pinsHeld(c); err != nil {
		return err
	}
	tx.dropSettings(old, c)
	return tx.leadAt(before, id)
}

// ownPart returns a copy that shares nothing a caller could write to.
func ownPart(p *schematic.Part) *schematic.Part {
	c := *p
	c.Views, c.Pins, c.Links = slices.Clone(p.Views), slices.Clone(p.Pins), slices.Clone(p.Links)
	c.Values, c.Extra = maps.Clone(p.Values), maps.Clone(p.Extra)
	for i := range c.Pins {
		c.Pins[i].Values = maps.Clone(c.Pins[i].Values)
	}
	if p.Housing != nil {
		h := *p.Housing
		c.Housing = &h
	}
	return &c
}

// tidyPart brings "none" into one form.
func tidyPart(p *schematic.Part) {
	p.Views, p.Pins, p.Links = orNil(p.Views), orNil(p.Pins), orNil(p.Links)
	if len(p.Values) == 0 {
		p.Values = nil
	}
	for i := range p.Pins {
		if len(p.Pins[i].Values) == 0 {
			p.Pins[i].Values = nil
		}
	}
}

// validPart checks a part by itself; its designation is the caller's matter.
func validPart(d *schematic.Doc, p *schematic.Part) error {
	k := d.KindOf(p)
	views := map[string]bool{}
	for _, v := range p.Views {
		switch {
		case d.Sheet(v.Sheet) == nil:
			return fmt.Errorf("%s: the sheet it shall be shown on is not there: choose another one", p.Name)
		case views[v.Key]:
			return fmt.Errorf("%s: two symbols with the key %q: give each its own", p.Name, v.Key)
		case v.Turns < 0 || v.Turns > 3:
			return fmt.Errorf("%s: %d quarter turns: give 0, 1, 2 or 3", p.Name, v.Turns)
		}
		if err := onSheet(p.Name, v.At); err != nil {
			return err
		}
		if k != nil {
			if _, ok := k.Section(v.Section); !ok {
				return fmt.Errorf("%s: part kind %q has no section %q", p.Name, k.Name, v.Section)
			}
		}
		views[v.Key] = true
	}
	if err := validPins(k, p); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(p.Values)) {
		if err := sane(p.Values[name]); err != nil {
			return fmt.Errorf("%s: %s: %w", p.Name, name, err)
		}
	}
	if h := p.Housing; h != nil {
		for _, n := range []struct {
			what string
			schematic.Num
		}{{"contact size", h.ContactMM}, {"rated current of a contact", h.RatedAmp}, {"smallest wire of a terminal", h.WireMinMM2}, {"largest wire of a terminal", h.WireMaxMM2}} {
			if err := positive(n.Num); err != nil {
				return fmt.Errorf("%s: %s: %w", p.Name, n.what, err)
			}
		}
		if least, most := h.WireMinMM2.Or(0), h.WireMaxMM2.Or(schematic.MaxNum); least > most {
			return fmt.Errorf("%s: its terminals take wires from %g mm² but only up to %g mm²: swap the two", p.Name, least, most)
		}
	}
	if (p.Loom != schematic.ID{}) && d.Loom(p.Loom) == nil {
		return fmt.Errorf("%s: its loom is not in the document: choose another one", p.Name)
	}
	return validBuild(p.Name, p.Build)
}

func validPins(k *schematic.Kind, p *schematic.Part) error {
	pins := map[string]bool{}
	for _, pin := range p.Pins {
		switch {
		case strings.TrimSpace(pin.Name) == "":
			return fmt.Errorf("%s: a pin needs a name", p.Name)
		case pins[pin.Name]:
			return fmt.Errorf("%s: two pins are named %s: give each its own name", p.Name, pin.Name)
		}
		pins[pin.Name] = true
		if k != nil && k.OwnPins {
			if _, ok := k.Role(pin.Role); !ok {
				return fmt.Errorf("%s: pin %s cannot be a %q: choose one of %s", p.Name, pin.Name, pin.Role, roleNames(k))
			}
		}
		for _, name := range slices.Sorted(maps.Keys(pin.Values)) {
			if err := sane(pin.Values[name]); err != nil {
				return fmt.Errorf("%s: pin %s: %s: %w", p.Name, pin.Name, name, err)
			}
		}
	}
	return nil
}

func roleNames(k *schematic.Kind) string {
	names := make([]string, len(k.Roles))
	for i, r := range k.Roles {
		names[i] = r.Name
	}
	return strings.Join(names, ", ")
}

// knownValues refuses new values that neither the kind nor the pin's role has.
func knownValues(d *schematic.Doc, old, p *schematic.Part) error {
	k := d.KindOf(p)
	if k == nil {
		return nil
	}
	for _, name := range slices.Sorted(maps.Keys(p.Values)) {
		if _, had := old.Values[name]; !had && !takes(k, name) {
			return fmt.Errorf("%s: part kind %q has no value %q", p.Name, k.Name, name)
		}
	}
	return nil
}

// takes reports whether the kind, or one of its roles, has the parameter.
func takes(k *schematic.Kind, param string) bool {
	if _, ok := k.Param(param); ok {
		return true
	}
	return slices.ContainsFunc(k.Roles, func(r schematic.Role) bool {
		_, ok := r.Param(param)
		return ok
	})
}

// pinsHeld refuses a part that no longer shows a pin something refers to.
func (tx *Tx) pinsHeld(p *schematic.Part) error {
	d := tx.doc
	known := d.KindOf(p) != nil
	if !known && len(p.Pins) == 0 {
		return nil
	}
	for _, w := range d.WiresOf(p.ID) {
		for _, e := range []schematic.End{w.A, w.B} {
			if e.Part != p.ID {
				continue
			}
			if _, ok := d.PinOf(p, e.Pin); !ok {
				return fmt.Errorf("%s: pin %s still has %s: reconnect or delete that wire first", p.Name, e.Pin, w.Name)
			}
			if _, _, shown := d.EndAt(w, e); known && !shown {
				return fmt.Errorf("%s: the symbol with pin %s still has %s: reconnect or delete that wire first", p.Name, e.Pin, w.Name)
			}
		}
	}
	for m := range d.Readings() {
		for _, r := range []schematic.PinRef{m.From, m.To} {
			if _, ok := d.PinOf(p, r.Pin); r.Part == p.ID && !ok {
				return fmt.Errorf("%s: pin %s still has the reading of %s: delete that reading first", p.Name, r.Pin, m.Date)
			}
		}
	}
	return nil
}

// dropSettings removes what states say about pins that are gone.
func (tx *Tx) dropSettings(old, p *schematic.Part) {
	gone := map[string]bool{}
	for _, pin := range old.Pins {
		gone[pin.Name] = true
	}
	for _, pin := range p.Pins {
		delete(gone, pin.Name)
	}
	if len(gone) > 0 {
		tx.editSettings(func(s schematic.Setting) (schematic.Setting, bool) {
			return s, s.Part != p.ID || !gone[s.Item]
		})
	}
}

// editSettings maps the settings of all states; f says whether to keep one.
func (tx *Tx) editSettings(f func(schematic.Setting) (schematic.Setting, bool)) {
	for _, s := range tx.doc.States() {
		c := *s
		c.Set = nil
		for _, set := range s.Set {
			if set, keep := f(set); keep {
				c.Set = append(c.Set, set)
			}
		}
		tx.Put(&c)
	}
}
