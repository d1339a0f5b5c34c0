package action

import (
	"fmt"
	"slices"
	"strings"
)

// Text is the key in plain letters, as settings keep it: "Ctrl+Shift+S",
// "Left". [ParseKey] reads it.
func (k Key) Text() string {
	var b strings.Builder
	for _, m := range modNames() {
		if k.Mods&m.mod != 0 {
			b.WriteString(m.name)
		}
	}
	return b.String() + k.Name
}

func modNames() []struct {
	mod  Mod
	name string
} {
	return []struct {
		mod  Mod
		name string
	}{{Ctrl, "Ctrl+"}, {Alt, "Alt+"}, {Shift, "Shift+"}}
}

// ParseKey reads what [Key.Text] writes.
func ParseKey(s string) (Key, error) {
	k := Key{Name: s}
	for _, m := range modNames() {
		if rest, ok := strings.CutPrefix(k.Name, m.name); ok {
			k.Mods |= m.mod
			k.Name = rest
		}
	}
	if k.Name == "" || strings.ContainsAny(k.Name, " +") {
		return Key{}, fmt.Errorf("%q is not a key: write one such as Ctrl+Shift+S", s)
	}
	return k, nil
}

// Free reports whether a command may be given that key; otherwise the error
// says why not. Escape, Tab and the keys of the system always mean the same.
func (s *Set) Free(k Key, id string) error {
	switch {
	case k.Name == "Escape" || k.Name == "Tab":
		return fmt.Errorf("%s always means the same and cannot be given to a command", k)
	case strings.HasPrefix(k.Name, "Left") && k.Name != "Left", strings.HasPrefix(k.Name, "Right") && k.Name != "Right":
		return fmt.Errorf("%s alone is no key for a command: press another one with it", k.Name)
	}
	if a := s.ForKey(k); a != nil && a.ID != id {
		return fmt.Errorf("%s stands for %q", k, a.Title)
	}
	return nil
}

// Rebind gives an action other keys, none for no keys, and takes them away from
// those that had them. What it had as delivered is kept for [Set.Delivered].
func (s *Set) Rebind(id string, keys ...Key) {
	a := s.Find(id)
	if a == nil {
		return // of another version of the program
	}
	for _, o := range s.all {
		if o == a {
			continue
		}
		if kept := slices.DeleteFunc(slices.Clone(o.Keys), func(k Key) bool { return slices.Contains(keys, k) }); len(kept) < len(o.Keys) {
			s.set(o, kept)
		}
	}
	s.set(a, keys)
}

func (s *Set) set(a *Action, keys []Key) {
	if s.delivered == nil {
		s.delivered = map[string][]Key{}
	}
	if _, known := s.delivered[a.ID]; !known {
		s.delivered[a.ID] = a.Keys
	}
	a.Keys = keys
}

// Delivered returns the keys an action had before any was changed.
func (s *Set) Delivered(a *Action) []Key {
	if keys, changed := s.delivered[a.ID]; changed {
		return keys
	}
	return a.Keys
}

// Changed returns the keys that are not as delivered, by action.
func (s *Set) Changed() map[string][]Key {
	out := map[string][]Key{}
	for id, was := range s.delivered {
		if now := s.byID[id].Keys; !slices.Equal(now, was) {
			out[id] = now
		}
	}
	return out
}
