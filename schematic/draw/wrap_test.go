package draw

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// No line is wider than asked for, but for a single letter, and nothing is lost.
func TestWrapKeepsToItsWidth(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	letters := []rune("iW1Ωµ-é\U0001F50C")
	for range 2000 {
		var text strings.Builder
		for range rng.IntN(6) {
			for range rng.IntN(30) {
				text.WriteRune(letters[rng.IntN(len(letters))])
			}
			text.WriteByte(" \n"[rng.IntN(2)])
		}
		width, whole := 1+rng.Float64()*40, ""
		for _, line := range wrap(text.String(), width, 2, false, 0) {
			if len([]rune(line)) > 1 {
				require.LessOrEqual(t, Measure(line, 2, false), width+1e-9, "%q", line)
			}
			whole += line
		}
		require.Equal(t, strings.Join(strings.Fields(text.String()), ""), strings.ReplaceAll(whole, " ", ""))
	}
}

func TestWrapBreaksWithinAWord(t *testing.T) {
	width := Measure("WWWW", 2, false)
	assert.Equal(t, []string{"see", "WWWW", "WWWW", "W ok"}, wrap("see WWWWWWWWW ok", width, 2, false, 0))
	assert.Equal(t, []string{"WWWW", "WW ok"}, wrap("WWWWWW ok", width*1.001, 2, false, 0), "the rest of a word begins a line")
	assert.Equal(t, []string{"W", "W"}, wrap("WW", 0.1, 2, false, 0), "one letter at least")
	assert.Len(t, wrap(strings.Repeat("x", 300_000), 0.1, 2, false, 0), 300_000, "nor does it take for ever")
}

// A row with more to say than a page holds keeps to its page.
func TestListingRowFitsAPage(t *testing.T) {
	l := Listing{Title: "Findings", Page: Point{190, 240}, Rows: []ListingRow{{
		Names: strings.Repeat("W1, ", 500), Text: strings.Repeat("something to say ", 900) + strings.Repeat("x", 900),
		Notes: []string{strings.Repeat("source ", 900), strings.Repeat("more ", 900)},
	}}}
	for _, pg := range l.Pages() {
		for _, m := range pg.Marks {
			b := m.Bound
			assert.True(t, b.Min.X >= 0 && b.Min.Y >= 0 && b.Max.X <= l.Page.X && b.Max.Y <= l.Page.Y, "%+v", m.Op)
		}
	}
}
