package catalog

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"loomwright/schematic"
)

// How well a word of the search fits a kind. Titles count most, then the extra
// words and the pin names, then the name and group.
const (
	inTitle = 300
	inWords = 200
	inName  = 100
	whole   = 30 // the whole word, not only its beginning
	begin   = 20
	inside  = 0
)

// Search returns the kinds in which every word of the text occurs, best first.
// Case, accents and word order do not matter; beginnings of words do. An empty
// text returns all kinds in the order of the tray.
func Search(lib *schematic.Library, text string) []*schematic.Kind {
	words := split(text)
	type hit struct {
		kind  *schematic.Kind
		score int
	}
	var hits []hit
	for _, g := range Groups(lib) {
		for _, k := range g.Kinds {
			if s, ok := score(k, words); ok {
				hits = append(hits, hit{k, s})
			}
		}
	}
	slices.SortStableFunc(hits, func(a, b hit) int {
		if c := cmp.Compare(b.score, a.score); c != 0 || len(words) == 0 {
			return c
		}
		// Of equals, the plainer kind has the shorter title.
		return cmp.Compare(len(a.kind.Title), len(b.kind.Title))
	})
	found := make([]*schematic.Kind, len(hits))
	for i, h := range hits {
		found[i] = h.kind
	}
	return found
}

// score adds up the best fit of every word; false when one does not occur.
func score(k *schematic.Kind, words []string) (int, bool) {
	total := 0
	title, more, name := split(k.Title), split(k.Words), split(k.Name+" "+k.Group)
	short, _, _ := strings.Cut(k.Title, ",")
	noun := len(split(short)) - 1 // "Blade fuse" is a fuse, "Fuse block, blade" a block
	for _, p := range k.Pins {
		more = append(more, split(p.Name)...)
	}
	for _, w := range words {
		best := -1
		for _, f := range []struct {
			in    []string
			noun  int
			value int
		}{{title, noun, inTitle}, {more, -1, inWords}, {name, -1, inName}} {
			if n := fit(f.in, f.noun, w); n >= 0 {
				best = max(best, f.value+n)
			}
		}
		if best < 0 {
			return 0, false
		}
		total += best
	}
	return total, true
}

// fit returns how well a word is found among others, -1 for not at all; the
// noun, by its place, says what the thing is.
func fit(in []string, noun int, word string) int {
	best := -1
	for i, s := range in {
		switch {
		case s == word:
			best = max(best, whole)
			if i == noun {
				best = whole + 5
			}
			if i == 0 && noun == 0 {
				best++ // and nothing but that: "Relay, change-over"
			}
		case strings.HasPrefix(s, word):
			best = max(best, begin)
		case len(word) > 2 && strings.Contains(s, word):
			best = max(best, inside)
		}
	}
	return best
}

// split returns the folded words of a text. "+" and "-" stay, for "B+".
func split(text string) []string {
	return strings.FieldsFunc(fold(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '+' && r != '°'
	})
}
