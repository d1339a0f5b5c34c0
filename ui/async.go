package ui

import "fyne.io/fyne/v2"

// crew runs work beside the window and brings results back to it. Tests put
// both in line.
type crew struct {
	spawn func(func()) // starts f on a goroutine of its own
	post  func(func()) // runs f on the window's goroutine, later
}

func liveCrew() crew {
	return crew{spawn: func(f func()) { go f() }, post: fyne.Do}
}

// latest keeps one kind of derived work up to date: one job at a time, and of
// the requests that come meanwhile only the newest counts. All methods belong
// to the window's goroutine.
type latest struct {
	crew crew
	gen  uint64 // of the newest request
	busy bool
	next func()
}

// ask runs work on a snapshot beside the window and then done in the window,
// unless a newer request came in between. Work must not touch the window.
func ask[T any](l *latest, work func() T, done func(T)) {
	gen := l.gen + 1
	askEach(l, work, func(res T) {
		if gen == l.gen {
			done(res)
		}
	})
}

// askEach is ask for work whose results are worth having when they come late.
func askEach[T any](l *latest, work func() T, done func(T)) {
	l.gen++
	start := func() {
		l.busy = true
		l.crew.spawn(func() {
			res := work()
			l.crew.post(func() {
				l.busy = false
				done(res)
				if next := l.next; next != nil && !l.busy {
					l.next = nil
					next()
				}
			})
		})
	}
	if l.busy {
		l.next = start
		return
	}
	start()
}

// drop makes results under way worthless.
func (l *latest) drop() {
	l.gen++
	l.next = nil
}
