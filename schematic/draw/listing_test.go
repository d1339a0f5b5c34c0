package draw

import (
	"fmt"
	"strings"
	"testing"
)

func TestListingBreaksBetweenRows(t *testing.T) {
	l := Listing{Title: "Findings", Subtitle: "of a harness", Empty: "nothing", Page: Point{190, 268}}
	for i := range 60 {
		l.Rows = append(l.Rows, ListingRow{Sign: Sign(i % 5), Word: "a word", Names: fmt.Sprintf("W%d", i),
			Text: strings.Repeat("something to say ", 1+i%30) + strings.Repeat("x", i*i), Notes: []string{"Source: a table", strings.Repeat("more ", i)}})
	}
	pages := l.Pages()
	if len(pages) < 3 {
		t.Fatal(len(pages), "pages")
	}
	seen := map[string]int{}
	for n, pg := range pages {
		var all []string
		for _, m := range pg.Marks {
			if x, ok := m.Op.(*Text); ok {
				all = append(all, x.S)
				if strings.HasPrefix(x.S, "W") {
					seen[x.S]++
				}
			}
			b := m.Bound
			if b.Min.X < -1e-9 || b.Min.Y < -1e-9 || b.Max.X > l.Page.X+1e-9 || b.Max.Y > l.Page.Y+1e-9 {
				t.Errorf("page %d: %v lies beyond the page", n+1, b)
			}
		}
		text := strings.Join(all, "\n")
		if !strings.Contains(text, Caution) || !strings.Contains(text, fmt.Sprintf("page %d of %d", n+1, len(pages))) {
			t.Errorf("page %d has no caution or number", n+1)
		}
		if strings.Contains(text, "continued") != (n > 0) {
			t.Errorf("page %d: title %q", n+1, all[0])
		}
	}
	for i := range 60 {
		if seen[fmt.Sprintf("W%d", i)] != 1 {
			t.Errorf("row %d stands %d times", i, seen[fmt.Sprintf("W%d", i)])
		}
	}
	l.Rows = nil
	if pages := l.Pages(); len(pages) != 1 || !strings.Contains(pages[0].Text(), "nothing") {
		t.Error("an empty listing says so on one page")
	}
}
