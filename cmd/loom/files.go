package main

import (
	"errors"
	"fmt"

	"loomwright/schematic/canon"
	"loomwright/schematic/loomfile"
)

type validateJSON struct {
	head
	Files []validJSON `json:"files"`
}

type validJSON struct {
	File     string        `json:"file"`
	Valid    bool          `json:"valid"`
	Mistakes []mistakeJSON `json:"mistakes"`
	Notes    []string      `json:"notes"` // what it says in vain
}

type mistakeJSON struct {
	Path string `json:"path,omitempty"`
	Line int    `json:"line,omitempty"`
	Col  int    `json:"column,omitempty"`
	Text string `json:"text"`
}

// errorJSON is what a command prints instead of its own JSON when the file or
// the arguments cannot be used.
type errorJSON struct {
	head
	Command  string        `json:"command"`
	Error    string        `json:"error"`
	Mistakes []mistakeJSON `json:"mistakes"`
}

func runValidate(a *app, args []string) (int, error) {
	if len(args) == 0 {
		return 0, errors.New("no file given: name .loom.json files, or - for standard input")
	}
	code := exitClean
	var all []validJSON
	for _, path := range args {
		v := validJSON{File: path, Valid: true, Mistakes: []mistakeJSON{}, Notes: []string{}}
		if d, err := a.load(path); err != nil {
			code, v.Valid, v.Mistakes = exitUnusable, false, mistakes(err)
		} else {
			v.Notes = notesOn(d)
		}
		all = append(all, v)
	}
	if a.opt.json {
		return code, printJSON(a.out, validateJSON{headOf("validate"), all})
	}
	for _, v := range all {
		if v.Valid {
			fmt.Fprintf(a.out, "%s: can be read\n", v.File)
		}
		for _, note := range v.Notes {
			fmt.Fprintf(a.out, "%s: note: %s\n", v.File, note)
		}
		for _, m := range v.Mistakes {
			place := v.File
			if m.Line > 0 {
				place = fmt.Sprintf("%s:%d:%d", v.File, m.Line, m.Col)
			}
			if m.Path != "" {
				place += ": " + m.Path
			}
			fmt.Fprintf(a.out, "%s: %s\n", place, m.Text)
		}
	}
	return code, nil
}

// mistakes takes an error of reading apart into its places.
func mistakes(err error) []mistakeJSON {
	var many *loomfile.Mistakes
	var one *canon.Error
	switch {
	case errors.As(err, &many):
		var out []mistakeJSON
		for _, e := range many.List {
			out = append(out, mistakeJSON{e.Path, e.Line, e.Col, e.Text})
		}
		if many.More > 0 {
			out = append(out, mistakeJSON{Text: fmt.Sprintf("and %d more", many.More)})
		}
		return out
	case errors.As(err, &one):
		return []mistakeJSON{{one.Path, one.Line, one.Col, one.Text}}
	}
	if inner := errors.Unwrap(err); inner != nil {
		err = inner // the output names the file itself
	}
	return []mistakeJSON{{Text: err.Error()}}
}

func runFormat(a *app, args []string) (int, error) {
	path, err := only(args)
	if err != nil {
		return 0, err
	}
	d, err := a.load(path)
	if err != nil {
		return 0, err
	}
	if !a.opt.write {
		return exitClean, loomfile.Write(a.out, d)
	}
	if path == "-" {
		return 0, errors.New("-w needs a file to rewrite, not standard input")
	}
	return exitClean, loomfile.Save(path, d)
}
