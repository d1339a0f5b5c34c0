package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"loomwright/schematic"
	"loomwright/schematic/loomfile"
)

// showVersions lists what earlier saves of the file replaced.
func (ed *Editor) showVersions() {
	all, err := loomfile.Versions(ed.file.path)
	if err == nil && len(all) == 0 {
		err = errors.New("no save has replaced anything yet: the last " + fmt.Sprint(loomfile.KeepVersions) + " versions that saves replace are kept")
	}
	if err != nil {
		ed.reportAs("No earlier versions", err)
		return
	}
	var lines []chooserLine
	for _, v := range all {
		when := v.Time.Local().Format("2 January 2006, 15:04:05")
		lines = append(lines, chooserLine{title: "Saved " + when, side: since(ed.now().Sub(v.Time)), run: func() {
			ed.question("The version of "+when, "Bringing it back is one step, which Undo takes back. The file changes when you save.",
				answer{text: "Compare with it", main: true, deed: func() { ed.compareFile(v.Path, "the version of "+when) }},
				answer{text: "Bring it back", deed: func() { ed.bringBack(v.Path, when) }},
				answer{text: "Go back"})
		}})
	}
	ed.openChooser("Earlier versions of "+ed.file.name(), "Type a part of the date", func(text string) []chooserLine { return narrow(lines, text) })
}

// loadThen reads a file beside the window and goes on with it, if the document
// in the window is still the same.
func (ed *Editor) loadThen(path string, then func(*schematic.Doc)) {
	sess := ed.sess
	busy := ed.busy("Reading " + filepath.Base(path))
	ed.crew.spawn(func() {
		d, err := loomfile.Load(path, ed.lib)
		ed.crew.post(func() {
			busy()
			switch {
			case ed.sess != sess:
			case err != nil:
				ed.reportAs("Could not read "+filepath.Base(path), err)
			default:
				then(d)
			}
		})
	})
}

func (ed *Editor) bringBack(path, when string) {
	ed.loadThen(path, func(d *schematic.Doc) {
		if ed.become("bring back the version of "+when, d) {
			ed.status.tell("the version of " + when + " is back; Undo takes it away again")
		}
	})
}

// since says in words how long ago something was.
func since(d time.Duration) string {
	switch {
	case d < time.Minute:
		return "just now"
	case d < 2*time.Hour:
		return count(int(d.Minutes()), "minute") + " ago"
	case d < 48*time.Hour:
		return count(int(d.Hours()), "hour") + " ago"
	}
	return count(int(d.Hours()/24), "day") + " ago"
}
