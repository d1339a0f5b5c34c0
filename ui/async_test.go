package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// byHand queues both sides so that a test decides what happens when.
type byHand struct{ side, window []func() }

func (b *byHand) crew() crew {
	return crew{
		spawn: func(f func()) { b.side = append(b.side, f) },
		post:  func(f func()) { b.window = append(b.window, f) },
	}
}

func take(q *[]func()) {
	f := (*q)[0]
	*q = (*q)[1:]
	f()
}

func TestOnlyTheNewestResultCounts(t *testing.T) {
	var b byHand
	l := latest{crew: b.crew()}
	var worked, shown []int
	for i := 1; i <= 4; i++ {
		ask(&l, func() int { worked = append(worked, i); return i }, func(v int) { shown = append(shown, v) })
	}
	assert.Len(t, b.side, 1, "one job at a time")
	take(&b.side)
	take(&b.window)
	assert.Empty(t, shown, "a late result is dropped")
	take(&b.side)
	take(&b.window)
	assert.Equal(t, []int{1, 4}, worked, "requests in between are never worked on")
	assert.Equal(t, []int{4}, shown)
	assert.Empty(t, b.side)

	ask(&l, func() int { return 5 }, func(v int) { shown = append(shown, v) })
	l.drop()
	take(&b.side)
	take(&b.window)
	assert.Equal(t, []int{4}, shown, "dropped by hand")
	ask(&l, func() int { return 6 }, func(v int) { shown = append(shown, v) })
	take(&b.side)
	take(&b.window)
	assert.Equal(t, []int{4, 6}, shown)
}
