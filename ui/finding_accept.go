package ui

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// acceptInHand asks why the finding in hand may stand.
func (f *findingList) acceptInHand() {
	x := f.inHand()
	if x == nil || !x.Open() {
		return
	}
	reason := newEntry(nil)
	reason.SetPlaceHolder("Measured, 0.4 V with the lamp on")
	var before []schematic.ID
	if x.Before != nil {
		reason.SetText(x.Before.Reason)
		before = append(before, x.Before.ID)
	}
	note := complaint()
	b := &box{title: "Accept the finding", about: x.ID, size: fyne.NewSize(560, 0), first: reason}
	try := func() {
		if strings.TrimSpace(reason.Text) == "" {
			b.complain(note, errors.New("write a reason, so that you and others know it later"))
			f.ed.win.Canvas().Focus(reason)
			return
		}
		b.close()
		a := x.Acceptance(reason.Text, f.ed.now().Format("2006-01-02"))
		if f.ed.do("accept a finding of "+x.subjectWord(), func(tx *edit.Tx) error { return edit.Accept(tx, a, before...) }) {
			f.ed.status.tell("accepted: it is listed among the accepted ones, and opens again when its numbers change")
		}
	}
	words := []fyne.CanvasObject{wrapped(f.ed.shows().Text(x.Text))}
	if said := x.acceptedWords(); said != "" {
		words = append(words, remark(said).CanvasObject)
	}
	words = append(words, row("Reason", reason), note,
		remark("The reason and today's date are kept in the drawing. The finding no longer counts, and is open again as soon as its numbers change.").CanvasObject)
	b.content = container.New(padded{8, 4}, container.NewVBox(words...))
	b.answers = []answer{{text: "Accept", main: true, stays: true, deed: try}, {text: "Go back"}}
	b.field(reason)
	f.ed.openBox(b)
}

// subjectWord names what a finding is about for the list of steps.
func (x *finding) subjectWord() string {
	if x.part != "" {
		return x.part
	}
	return "the drawing"
}

// takeBack opens the accepted finding in hand again.
func (f *findingList) takeBack() {
	x := f.inHand()
	if x == nil || x.Open() {
		return
	}
	id := x.Accepted.ID
	f.ed.do("take back the acceptance of "+x.subjectWord(), func(tx *edit.Tx) error {
		edit.TakeBack(tx, id)
		return nil
	})
}

// idle lists the acceptances that no finding needs any more.
func (f *findingList) idle() []*schematic.Acceptance {
	if have := f.ed.study.have; have != nil && have.doc == f.ed.doc() {
		return have.idle
	}
	return nil
}

// clearIdle removes them.
func (f *findingList) clearIdle() {
	f.ed.do("remove acceptances nothing needs", func(tx *edit.Tx) error {
		for _, a := range f.idle() {
			edit.TakeBack(tx, a.ID)
		}
		return nil
	})
}
