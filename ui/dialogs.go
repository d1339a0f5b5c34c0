package ui

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// dialogWidth is the width of question boxes.
const dialogWidth = 480

// question asks something in the middle of the window. Escape gives the last
// answer.
func (ed *Editor) question(title, text string, answers ...answer) {
	body := widget.NewLabel(text)
	body.Wrapping = fyne.TextWrapWord
	ed.openBox(&box{title: title, about: text, content: container.New(padded{8, 6}, body), size: fyne.NewSize(dialogWidth, 0), answers: answers})
}

// report shows an error; nil is passed over.
func (ed *Editor) report(err error) {
	if err != nil {
		ed.reportAs("That did not work", err)
	}
}

// reportAs shows an error under a title. Several at once are shown in lines.
func (ed *Editor) reportAs(title string, err error) {
	ed.question(title, sentence(err.Error()), answer{text: "Close", main: true})
}

// busy says in the status line that something is at work; the result ends it.
func (ed *Editor) busy(what string) (done func()) {
	ed.status.forget() // else a notice still due would keep this standing
	ed.status.hint.sayIn(what+"…", theme.ColorNameForeground)
	return func() { ed.status.showHint() }
}

// askOpen lets the user choose a file by looking or by typing its path.
func (ed *Editor) askOpen() { ed.askPathToOpen("Open a drawing", ed.askThenOpen) }

// askPathToOpen asks for a file that is there.
func (ed *Editor) askPathToOpen(title string, use func(string)) {
	ed.pathDialog(title, "Open", ed.inFolder()+string(filepath.Separator), func(from string, found func(string), take func()) {
		ed.browseOpen(from, func(path string) {
			found(path)
			take()
		})
	}, func(path string) (string, error) {
		info, err := os.Stat(path)
		switch {
		case err != nil:
			return "", errors.New("there is no file of that name: type another path, or look for it")
		case info.IsDir():
			return "", errors.New("that is a folder: add the file's name")
		}
		return path, nil
	}, use)
}

// harnessTarget returns the path of a harness file to write, or why it cannot
// be one.
func harnessTarget(path string) (string, error) {
	path = harnessPath(path)
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return "", errors.New("that is a folder: add the file's name")
	}
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return "", errors.New("there is no folder " + filepath.Dir(path) + ": choose one that is there")
	}
	return path, nil
}

// saveAs asks for a path and saves there.
func (ed *Editor) saveAs(then func()) {
	path := ed.file.path
	if path == "" {
		path = filepath.Join(ed.inFolder(), fileNameOf(ed.doc().Info().Title)+fileEnding)
	}
	ed.pathDialog("Save the drawing as", "Save", path, func(from string, found func(string), _ func()) {
		ed.browseSave(from, found)
	}, harnessTarget, func(path string) {
		if _, err := os.Stat(path); err == nil && path != ed.file.path {
			ed.question("Replace the file?", path+" is there already.",
				answer{text: "Replace it", deed: func() { ed.saveTo(path, true, then) }},
				answer{text: "Go back", main: true, deed: func() { ed.saveAs(then) }})
			return
		}
		ed.saveTo(path, path != ed.file.path, then)
	})
}

// fileNameOf makes a file name of a title: letters and digits, in small letters,
// with hyphens between the words.
func fileNameOf(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	var name string
	for _, w := range words {
		longer := strings.TrimPrefix(name+"-"+w, "-")
		if len(longer) > 60 {
			break
		}
		name = longer
	}
	if name == "" {
		return "untitled"
	}
	return name
}

// pathDialog asks for a path: typed, or found with the file dialog that browse
// opens, which may also take it at once. Check says what is wrong with it, or returns it complete; use gets it
// once the box is gone.
func (ed *Editor) pathDialog(title, verb, path string, browse func(from string, found func(string), take func()), check func(string) (string, error), use func(string)) {
	input := newEntry(nil)
	input.SetText(path)
	note := complaint()
	b := &box{title: title, size: fyne.NewSize(680, 0), first: input}
	try := func() {
		p := expandHome(strings.TrimSpace(input.Text))
		err := errors.New("type the path of a file, or look for it")
		if p != "" && !filepath.IsAbs(p) { // a name alone means the folder offered
			p = filepath.Join(ed.inFolder(), p)
		}
		if p != "" {
			p, err = check(p)
		}
		if err != nil {
			b.complain(note, err)
			return
		}
		b.close()
		use(p)
	}
	look := newBoxButton(b, answer{text: "Look for it…", stays: true, deed: func() {
		browse(expandHome(input.Text), func(p string) {
			input.SetText(p)
			ed.win.Canvas().Focus(input)
		}, try)
	}})
	b.content = container.NewVBox(gap(2), container.NewBorder(nil, nil, widget.NewLabel("File"), look, input), note)
	b.answers = []answer{{text: verb, main: true, stays: true, deed: try}, {text: "Go back"}}
	b.field(input)
	b.ready = func() {
		input.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
		input.TypedShortcut(&fyne.ShortcutSelectAll{}) // typing replaces it
	}
	ed.openBox(b)
}

func (ed *Editor) browseOpen(from string, found func(string)) {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if r == nil || err != nil {
			return
		}
		path := r.URI().Path()
		r.Close()
		found(path)
	}, ed.win)
	d.SetFilter(storage.NewExtensionFileFilter([]string{".json"}))
	ed.showFileDialog(d, from)
}

func (ed *Editor) browseSave(from string, found func(string)) {
	// A folder is chosen and the name typed: the toolkit's own save dialog
	// empties the file before anything is written.
	d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		if u == nil || err != nil {
			return
		}
		name := filepath.Base(from)
		if from == "" || strings.HasSuffix(from, string(filepath.Separator)) {
			name = "untitled" + fileEnding
		}
		found(filepath.Join(u.Path(), name))
	}, ed.win)
	ed.showFileDialog(d, from)
}

func (ed *Editor) showFileDialog(d *dialog.FileDialog, from string) {
	dir := from
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		dir = filepath.Dir(from)
	}
	if l, err := storage.ListerForURI(storage.NewFileURI(dir)); err == nil {
		d.SetLocation(l)
	}
	d.Show()
	size := ed.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(900, size.Width-60), min(640, size.Height-60)))
}

// caution is what stands wherever the program's figures may be trusted too far.
const caution = "Wrong wiring starts fires. Loomwright is a calculation aid, not a substitute for the vehicle maker's data, local codes and a qualified person. " +
	"Disconnect the battery before you work on the vehicle.\n\n" +
	"Airbag and other restraint circuits, brake and steering electronics, fuel lines and anything above 60 V DC are out of scope.\n\n" +
	"A finding says \"within the limit X of source Y\" or \"not assessed: X is missing\". It never says that something is safe."

// showCaution shows the caution on the first start.
func (ed *Editor) showCaution() {
	ed.question("Before you begin", caution, answer{text: "I have read this", main: true, deed: func() {
		ed.store.CautionRead = true
		ed.keepSettings()
	}})
}

func (ed *Editor) showAbout() {
	ed.question("About "+appName, "Loomwright is a schematic editor for vehicle sub-harnesses that knows electricity.\n\n"+caution+
		"\n\nText is set in the Go fonts. The licence is in the file LICENSE that comes with the program.", answer{text: "Close", main: true})
}

func show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}
