package action

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Search returns the actions that match a text, best first: every word of the
// text must begin a word of the title, menu or search words (or, failing that,
// stand somewhere in them, or have its letters in the title in that order, the
// first at the start of a word). Of equals those that can run now come first. An
// empty text returns all, in their order.
func (s *Set) Search(text string) []*Action {
	words := strings.Fields(strings.ToLower(text))
	type ranked struct {
		a     *Action
		score int
		on    bool
	}
	var found []ranked
	for _, a := range s.all {
		if score, ok := match(a, words); ok {
			found = append(found, ranked{a, score, a.IsEnabled()})
		}
	}
	sort.SliceStable(found, func(i, j int) bool {
		a, b := found[i], found[j]
		if a.score == b.score && len(words) > 0 {
			return a.on && !b.on
		}
		return a.score > b.score
	})
	out := make([]*Action, len(found))
	for i, f := range found {
		out[i] = f.a
	}
	return out
}

func match(a *Action, words []string) (score int, ok bool) {
	title := strings.ToLower(a.TitleNow() + " " + a.Title)
	more := strings.ToLower(a.Menu + " " + a.Words + " " + a.Help)
	for _, w := range words {
		switch {
		case strings.EqualFold(a.Title, w):
			score += 10 // all of it
		case strings.HasPrefix(title, w):
			score += 8
		case beginsWord(title, w):
			score += 6
		case beginsWord(more, w):
			score += 3
		case strings.Contains(title, w):
			score += 2
		case strings.Contains(more, w):
			score++
		case lettersInOrder(title, w):
		default:
			return 0, false
		}
	}
	return score, true
}

// beginsWord reports whether some word of text starts with w.
func beginsWord(text, w string) bool {
	for _, f := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" /-,.()", r) }) {
		if strings.HasPrefix(f, w) {
			return true
		}
	}
	return false
}

// lettersInOrder forgives letters left out: "dplct" finds "duplicate". The
// first letter must begin a word.
func lettersInOrder(text, w string) bool {
	if len(w) < 3 {
		return false
	}
	first, _ := utf8.DecodeRuneInString(w)
	start := true
	for i, r := range text {
		if start && r == first && inOrder(text[i:], w) {
			return true
		}
		start = strings.ContainsRune(" /-,.()", r)
	}
	return false
}

func inOrder(text, w string) bool {
	for _, r := range w {
		i := strings.IndexRune(text, r)
		if i < 0 {
			return false
		}
		text = text[i+utf8.RuneLen(r):]
	}
	return true
}
