package edit

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
)

// AddState adds an operating state after the last one.
func AddState(tx *Tx, name string, engine schematic.Engine) error {
	all := tx.doc.States()
	s := &schematic.State{ID: tx.NewID(), Name: strings.TrimSpace(name), Order: 1, Engine: engine}
	if len(all) > 0 {
		s.Order = all[len(all)-1].Order + 1
	}
	if err := validState(tx.doc, s); err != nil {
		return err
	}
	tx.Put(s)
	return nil
}

// AddStateWith adds an operating state after the last one with switches and
// outputs set as given.
func AddStateWith(tx *Tx, name string, engine schematic.Engine, set []schematic.Setting) error {
	if err := AddState(tx, name, engine); err != nil {
		return err
	}
	all := tx.doc.States()
	s := *all[len(all)-1]
	s.Set = slices.Clone(set)
	tx.Put(&s)
	return nil
}

// SetState changes name, engine and notes of an operating state; change gets
// a copy. What is switched on goes through [Switch] and [SetDuty].
func SetState(tx *Tx, id schematic.ID, change func(*schematic.State)) error {
	s := tx.doc.State(id)
	if s == nil {
		return fmt.Errorf("the operating state is no longer there")
	}
	c := *s
	change(&c)
	c.ID, c.Order, c.Set, c.Name = s.ID, s.Order, s.Set, strings.TrimSpace(c.Name)
	if err := validState(tx.doc, &c); err != nil {
		return err
	}
	tx.Put(&c)
	return nil
}

func validState(d *schematic.Doc, s *schematic.State) error {
	if s.Name == "" {
		return fmt.Errorf("an operating state needs a name")
	}
	for _, t := range d.States() {
		if t.Name == s.Name && t.ID != s.ID {
			return fmt.Errorf("another operating state is named %q: choose another name", s.Name)
		}
	}
	switch s.Engine {
	case "", schematic.EngineOff, schematic.EngineCranking, schematic.EngineIdle, schematic.EngineRunning:
		return nil
	}
	return fmt.Errorf("state %q: %q is not an engine state: choose off, cranking, idle or running", s.Name, s.Engine)
}

// DeleteState removes an operating state; readings taken in it stay.
func DeleteState(tx *Tx, id schematic.ID) error {
	return Delete(tx, []schematic.Key{{Type: schematic.TypeState, ID: id}})
}

// Switch sets a part (item ""), or an output pin or element of it, to a
// position in a state: one of the kind's positions, or "on" and "off". The
// empty position brings back the default.
func Switch(tx *Tx, state, part schematic.ID, item, position string) error {
	p := tx.doc.Part(part)
	if p == nil {
		return fmt.Errorf("the part is no longer there")
	}
	if k := tx.doc.KindOf(p); k != nil && position != "" {
		can := []string{"on", "off"}
		if item == "" && len(k.Positions) > 0 {
			can = k.Positions
		}
		if !slices.Contains(can, position) {
			return fmt.Errorf("%s has no position %q: choose one of %s", p.Name, position, strings.Join(can, ", "))
		}
	}
	return tx.setting(state, p, item, func(s *schematic.Setting) { s.Position = position })
}

// SetDuty says for what share of time, 0 to 1, a load draws in a state;
// unknown brings back the default.
func SetDuty(tx *Tx, state, part schematic.ID, item string, duty schematic.Num) error {
	p := tx.doc.Part(part)
	if p == nil {
		return fmt.Errorf("the part is no longer there")
	}
	if v, ok := duty.Get(); ok && (v < 0 || v > 1) {
		return fmt.Errorf("%s: %g is not a share of time: give 0 to 1", p.Name, v)
	}
	return tx.setting(state, p, item, func(s *schematic.Setting) { s.Duty = duty })
}

func (tx *Tx) setting(state schematic.ID, p *schematic.Part, item string, change func(*schematic.Setting)) error {
	s := tx.doc.State(state)
	if s == nil {
		return fmt.Errorf("the operating state is no longer there")
	}
	if item != "" && !hasItem(tx.doc, p, item) {
		return fmt.Errorf("%s has no pin or element %q", p.Name, item)
	}
	c := *s
	c.Set = slices.Clone(s.Set)
	i := slices.IndexFunc(c.Set, func(x schematic.Setting) bool { return x.Part == p.ID && x.Item == item })
	if i < 0 {
		i = len(c.Set)
		c.Set = append(c.Set, schematic.Setting{Part: p.ID, Item: item})
	}
	change(&c.Set[i])
	if x := c.Set[i]; x.Position == "" && !x.Duty.Known() && len(x.Extra) == 0 {
		c.Set = slices.Delete(c.Set, i, i+1)
	}
	c.Set = orNil(c.Set)
	tx.Put(&c)
	return nil
}

func hasItem(d *schematic.Doc, p *schematic.Part, item string) bool {
	k := d.KindOf(p)
	if k == nil {
		return true // nobody knows what the part has
	}
	if _, ok := d.PinOf(p, item); ok {
		return true
	}
	return slices.ContainsFunc(k.Elements, func(e schematic.Element) bool { return e.Name == item })
}

// SetInfo changes title block and settings of the document; change gets a
// copy that is its own to write.
func SetInfo(tx *Tx, change func(*schematic.Info)) error {
	old := tx.doc.Info()
	c := *old
	c.Limits, c.Choices, c.Links, c.Extra = maps.Clone(old.Limits), maps.Clone(old.Choices), slices.Clone(old.Links), maps.Clone(old.Extra)
	change(&c)
	if v, ok := c.SystemVolt.Get(); ok && (v <= 0 || v > schematic.MaxNum) {
		return fmt.Errorf("%g V is not a system voltage: give 12 or 24, say", v)
	}
	if v, ok := c.AmbientC.Get(); ok && (v < -273.15 || v > schematic.MaxNum) {
		return fmt.Errorf("%g °C is not an air temperature", v)
	}
	for _, name := range slices.Sorted(maps.Keys(c.Limits)) {
		if err := sane(c.Limits[name]); err != nil {
			return fmt.Errorf("limit %s: %w", name, err)
		}
	}
	if len(c.Limits) == 0 {
		c.Limits = nil
	}
	if len(c.Choices) == 0 {
		c.Choices = nil
	}
	c.Links = orNil(c.Links)
	tx.Put(&c)
	return nil
}
