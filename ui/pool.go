package ui

import (
	"fyne.io/fyne/v2"
)

// pool hands out objects and hides those not handed out this time.
type pool[T fyne.CanvasObject] struct {
	all  []T
	used int
	make func() T
	in   *fyne.Container
}

func (p *pool[T]) next(o *overlay) T {
	if p.used == len(p.all) {
		obj := p.make()
		p.all = append(p.all, obj)
		p.in.Objects = append(p.in.Objects, obj)
		o.fresh = true
	}
	obj := p.all[p.used]
	p.used++
	if !obj.Visible() {
		obj.Show()
	}
	return obj
}

func (p *pool[T]) rest() {
	for _, obj := range p.all[p.used:] {
		if obj.Visible() {
			obj.Hide()
		}
	}
	p.used = 0
}
