package canon

import (
	"reflect"
	"runtime"
	"slices"
	"sync"
)

// leastShare is how many items are worth a goroutine of their own.
const leastShare = 256

// items appends the items of a broken list. Those of a long list are written in
// equal shares side by side, each by a writer of its own, and then joined: the
// bytes are the same.
func (w *writer) items(p *plan, v reflect.Value, depth int) error {
	n := v.Len()
	shares := min(2*runtime.GOMAXPROCS(0), n/leastShare) // more than cores: other work goes on beside
	if shares < 2 {
		return w.share(p, v, depth, 0, n)
	}
	parts := make([]writer, shares)
	errs := make([]error, shares)
	var wait sync.WaitGroup
	for i := range parts {
		parts[i].path = slices.Clone(w.path)
		wait.Go(func() { errs[i] = parts[i].share(p, v, depth, n*i/shares, n*(i+1)/shares) })
	}
	wait.Wait()
	size := 0
	for i := range parts {
		if errs[i] != nil {
			return errs[i] // the first in the order of the file
		}
		size += len(parts[i].b)
	}
	w.b = slices.Grow(w.b, size+size/8) // the lists that follow are shorter, most often
	for i := range parts {
		w.b = append(w.b, parts[i].b...)
	}
	return nil
}

// share appends the items from one index up to another.
func (w *writer) share(p *plan, v reflect.Value, depth, from, to int) error {
	for i := from; i < to; i++ {
		w.next(i, depth)
		w.path = append(w.path, step{index: i})
		if err := w.write(p.elem, v.Index(i), depth+1, 2*(depth+1)); err != nil {
			return err
		}
		w.path = w.path[:len(w.path)-1]
	}
	return nil
}
