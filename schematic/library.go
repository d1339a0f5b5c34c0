package schematic

import "slices"

// Library is a fixed set of part kinds by name. The zero value is empty.
// Package catalog builds the one that comes with the program.
type Library struct {
	byName map[string]*Kind
	names  []string
	lent   map[string]bool
}

// NewLibrary returns a library of the given kinds; of two with one name the
// later counts.
func NewLibrary(kinds ...*Kind) *Library {
	l := &Library{byName: make(map[string]*Kind, len(kinds))}
	for _, k := range kinds {
		if _, seen := l.byName[k.Name]; !seen {
			l.names = append(l.names, k.Name)
		}
		l.byName[k.Name] = k
	}
	slices.Sort(l.names)
	return l
}

// Kind returns the kind with the given name, or nil.
func (l *Library) Kind(name string) *Kind {
	if l == nil {
		return nil
	}
	return l.byName[name]
}

// Names returns the names in alphabetical order.
func (l *Library) Names() []string {
	if l == nil {
		return nil
	}
	return slices.Clone(l.names)
}

// WithLent returns the library with more kinds, which are the user's own: a
// document that uses one carries it along, for others do not have it. A kind
// whose name is taken is passed over.
func (l *Library) WithLent(kinds ...*Kind) *Library {
	all := make([]*Kind, 0, len(kinds))
	lent := map[string]bool{}
	if l != nil {
		for _, name := range l.names {
			all = append(all, l.byName[name])
			lent[name] = l.lent[name]
		}
	}
	for _, k := range kinds {
		if _, taken := lent[k.Name]; !taken {
			lent[k.Name] = true
			all = append(all, k)
		}
	}
	n := NewLibrary(all...)
	n.lent = lent
	return n
}

// Lent reports whether a kind is the user's own.
func (l *Library) Lent(name string) bool { return l != nil && l.lent[name] }
