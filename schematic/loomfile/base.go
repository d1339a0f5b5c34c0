package loomfile

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"fmt"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// Base is the document that the steps of a journal start from. The journal
// carries the whole of it, compressed: its steps can then be made again whatever
// becomes of the file, and even when a later version of the program reads a file
// written by hand in another way, with other bends for its wires.
type Base struct {
	head []byte // the header line of the journal
}

// NewBase packs a document that the harness file at path holds with that stamp;
// for an untitled drawing both are zero. It is about as much work as saving.
func NewBase(path string, s Stamp, d *schematic.Doc) (Base, error) {
	data, err := encode(d)
	if err != nil {
		return Base{}, err
	}
	text, err := pack(data)
	if err != nil {
		return Base{}, err
	}
	head, err := canon.Compact(journalHeader{journalFormat, journalVersion, s.name(), path, text})
	if err != nil {
		return Base{}, err
	}
	return Base{sealed(head)}, nil
}

func pack(data []byte) (string, error) {
	var b strings.Builder
	to := base64.NewEncoder(base64.StdEncoding, &b)
	z, err := gzip.NewWriterLevel(to, gzip.BestSpeed)
	if err != nil {
		return "", err
	}
	if _, err := z.Write(data); err != nil {
		return "", err
	}
	if err := z.Close(); err != nil {
		return "", err
	}
	if err := to.Close(); err != nil {
		return "", err
	}
	return b.String(), nil
}

// unpack reads the base of a journal, nil where it has none.
func (h *journalHeader) unpack(lib *schematic.Library) (*schematic.Doc, error) {
	if h.Base == "" {
		return nil, nil
	}
	packed, err := base64.StdEncoding.DecodeString(h.Base)
	if err != nil {
		return nil, fmt.Errorf("the document in the recovery journal: %w", err)
	}
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, fmt.Errorf("the document in the recovery journal: %w", err)
	}
	d, err := Read(z, lib)
	if err != nil {
		return nil, fmt.Errorf("the document in the recovery journal: %w", err)
	}
	return d, nil
}
