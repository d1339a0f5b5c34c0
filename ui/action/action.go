// Package action is the register of everything the user can ask for: named
// commands with their menu place, keys, and whether they make sense just now.
// Menus, shortcuts, the searchable command list and the key sheet all read it.
//
// Start with [Set]. The package knows no toolkit.
package action

import (
	"errors"
	"fmt"
	"strings"
)

// Action is one command. Run and Title are required.
type Action struct {
	ID    string // stable name for settings and tests: "edit.undo"
	Title string // what a menu shows: "Undo"
	// Menu is the menu the action stands in and, after a slash, the sub-menu:
	// "Edit", "View/Panels". Empty: only keys and the command list reach it.
	Menu string
	// Gap asks for a line above the action in its menu.
	Gap bool
	// Words are more words to find it by in the command list.
	Words string
	// Help says in a sentence what it does.
	Help string
	Keys []Key

	// Label, when set, gives the title of the moment: "Undo move 3 items".
	Label func() string
	// Enabled says whether Run makes sense now; nil is always.
	Enabled func() bool
	// Needs is what to do first where it makes no sense now: "select a wire".
	// An action with Enabled has one.
	Needs string
	// Checked, when set, makes the action a switch and tells its position.
	Checked func() bool
	Run     func()
}

// TitleNow returns the title of the moment.
func (a *Action) TitleNow() string {
	if a.Label != nil {
		if s := a.Label(); s != "" {
			return s
		}
	}
	return a.Title
}

// IsEnabled reports whether the action can run now.
func (a *Action) IsEnabled() bool { return a.Enabled == nil || a.Enabled() }

// Do runs the action when it is enabled and reports whether it did.
func (a *Action) Do() bool {
	if !a.IsEnabled() {
		return false
	}
	a.Run()
	return true
}

// Set is a register of actions in menu order. The zero value is empty.
type Set struct {
	all  []*Action
	byID map[string]*Action
	// delivered are the keys of actions as they were before they were changed.
	delivered map[string][]Key
}

// Add appends actions.
func (s *Set) Add(as ...*Action) {
	if s.byID == nil {
		s.byID = map[string]*Action{}
	}
	for _, a := range as {
		s.all = append(s.all, a)
		s.byID[a.ID] = a
	}
}

// All returns the actions in the order they were added.
func (s *Set) All() []*Action { return s.all }

// Find returns the action with the given ID, or nil.
func (s *Set) Find(id string) *Action { return s.byID[id] }

// ForKey returns the action a key stands for, or nil.
func (s *Set) ForKey(k Key) *Action {
	for _, a := range s.all {
		for _, have := range a.Keys {
			if have == k {
				return a
			}
		}
	}
	return nil
}

// Check returns what is wrong with the register: two actions on one key, an ID
// used twice, an action without a title or deed. A test calls it.
func (s *Set) Check() error {
	var errs []error
	ids, keys := map[string]bool{}, map[Key]string{}
	for _, a := range s.all {
		switch {
		case a.ID == "" || a.Title == "" || a.Run == nil:
			errs = append(errs, fmt.Errorf("action %q %q needs an ID, a title and a deed", a.ID, a.Title))
		case ids[a.ID]:
			errs = append(errs, fmt.Errorf("action %q is registered twice", a.ID))
		}
		ids[a.ID] = true
		if a.Enabled != nil && a.Needs == "" {
			errs = append(errs, fmt.Errorf("action %q can be off and does not say what it needs", a.ID))
		}
		for _, k := range a.Keys {
			if k.Name == "" {
				errs = append(errs, fmt.Errorf("action %q has a key without a name", a.ID))
			}
			if other, taken := keys[k]; taken {
				errs = append(errs, fmt.Errorf("%s stands for both %q and %q", k, other, a.ID))
			}
			keys[k] = a.ID
		}
	}
	return errors.Join(errs...)
}

// Menu is one menu or sub-menu: entries in order.
type Menu struct {
	Title   string
	Entries []Entry
}

// Entry is an action or a sub-menu; exactly one is set.
type Entry struct {
	Action *Action
	Sub    *Menu
}

// Menus returns the menu tree, menus in the order their first action was added.
func (s *Set) Menus() []*Menu {
	var top []*Menu
	find := func(in *[]*Menu, title string) *Menu {
		for _, m := range *in {
			if m.Title == title {
				return m
			}
		}
		m := &Menu{Title: title}
		*in = append(*in, m)
		return m
	}
	subs := map[string]*Menu{}
	for _, a := range s.all {
		if a.Menu == "" {
			continue
		}
		name, rest, nested := strings.Cut(a.Menu, "/")
		m := find(&top, name)
		if nested {
			sub := subs[a.Menu]
			if sub == nil {
				sub = &Menu{Title: rest}
				subs[a.Menu] = sub
				m.Entries = append(m.Entries, Entry{Sub: sub})
			}
			m = sub
		}
		m.Entries = append(m.Entries, Entry{Action: a})
	}
	return top
}
