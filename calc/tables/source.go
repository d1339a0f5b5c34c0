// Package tables holds the published data that conductor, ampacity, drop,
// fuse, ground, bundle and battery work needs, each table with its source.
//
// No paid standard was read for these tables: values come from second-hand
// copies, from public regulations, or from memory, and every [Source] says
// which. Start with the table for the job, such as [ISO6722] or [CFR183], and
// show its Source wherever one of its values decides something.
package tables

import (
	"iter"
	"strings"
)

// Source says where a value comes from, for the reader of a finding.
type Source struct {
	Title string // the document
	Place string // table, clause or kind of copy; may be empty
	// FromMemory marks values that were not seen in the document while the
	// table was written; they are defaults for the user to override.
	FromMemory bool
}

// String is the source line as shown to the user.
func (s Source) String() string {
	if s.Title == "" {
		return "no source given"
	}
	t := s.Title
	if s.Place != "" {
		t += ", " + s.Place
	}
	if s.FromMemory && !strings.Contains(t, remembered) {
		t += " " + remembered
	}
	return t
}

const remembered = "(from memory)"

// And joins the sources of a value that needs both. Each keeps its own mark;
// the whole is from memory if either is.
func (s Source) And(t Source) Source {
	switch {
	case s.Title == "" || s == t:
		return t
	case t.Title == "":
		return s
	}
	return Source{Title: s.String() + "; " + t.String(), FromMemory: s.FromMemory || t.FromMemory}
}

// memory marks s as from memory.
func (s Source) memory() Source {
	s.FromMemory = true
	return s
}

// practice is the source of trade facts that no document was found for.
func practice(what string) Source {
	return Source{Title: "common practice, no source", Place: what}
}

// practiceM is practice remembered with less certainty.
func practiceM(what string) Source { return practice(what).memory() }

// Table is a read-only list of rows with one source for all of them. Rows
// that differ in provenance carry a Source of their own.
type Table[R any] struct {
	Source Source
	rows   []R
}

// Len is the number of rows.
func (t Table[R]) Len() int { return len(t.rows) }

// At gives row i, 0 <= i < Len.
func (t Table[R]) At(i int) R { return t.rows[i] }

// All walks the rows in the order of the table.
func (t Table[R]) All() iter.Seq2[int, R] {
	return func(yield func(int, R) bool) {
		for i, r := range t.rows {
			if !yield(i, r) {
				return
			}
		}
	}
}

// Find gives the first row that fits.
func (t Table[R]) Find(fits func(R) bool) (R, bool) {
	for _, r := range t.rows {
		if fits(r) {
			return r, true
		}
	}
	var none R
	return none, false
}
