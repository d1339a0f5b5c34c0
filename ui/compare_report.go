package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"loomwright/schematic/edit"
)

// differencesText is the list as text.
func (ed *Editor) differencesText() string {
	c := &ed.compare
	return fmt.Sprintf("%s compared with %s, %s\n\n%s", ed.file.name(), c.name, ed.now().Format("2 January 2006, 15:04"), edit.Report(c.found))
}

// writeDifferences asks for a path and writes the list there.
func (ed *Editor) writeDifferences() {
	name := strings.TrimSuffix(ed.file.name(), fileEnding) + " differences.txt"
	ed.pathDialog("Write the list of differences as", "Write", filepath.Join(ed.inFolder(), name), func(from string, found func(string), _ func()) {
		ed.browseSave(from, found)
	}, textTarget, func(path string) {
		write := func() {
			if err := os.WriteFile(path, []byte(ed.differencesText()), 0o644); err != nil {
				ed.reportAs("Not written", err)
				return
			}
			ed.status.tell("wrote " + path)
		}
		if !fileThere(path) {
			write()
			return
		}
		ed.question("Replace the file?", path+" is there already.",
			answer{text: "Replace it", deed: write},
			answer{text: "Go back", main: true, deed: ed.writeDifferences})
	})
}

// textTarget returns the path of a text file to write, or why it cannot be one.
func textTarget(path string) (string, error) {
	if filepath.Ext(path) == "" {
		path += ".txt"
	}
	if strings.HasSuffix(path, fileEnding) {
		return "", errors.New("that is the name of a drawing: choose another, such as changes.txt")
	}
	return harnessTarget(path)
}
