package loomfile

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"time"
)

// Stamp tells one content of a file from another: a window keeps the stamp of
// what it opened or saved, to notice when another program writes the file. The
// zero Stamp is that of a file that is not there.
type Stamp struct {
	size int64
	time time.Time
	hash string // as the journal names it
}

// None reports whether the stamp is that of no file.
func (s Stamp) None() bool { return s.hash == "" }

// name is how journals name the content.
func (s Stamp) name() string {
	if s.None() {
		return noFile
	}
	return s.hash
}

// StampOf reads the file at path. A file that is not there has the zero Stamp.
func StampOf(path string) (Stamp, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Stamp{}, nil
	}
	if err != nil {
		return Stamp{}, err
	}
	hash, err := hashFile(path)
	if err != nil || hash == noFile {
		return Stamp{}, err
	}
	return Stamp{info.Size(), info.ModTime(), hash}, nil
}

// Now returns the stamp of the file at path as it is now, reading it only when
// its size or time differ from those of s. Compare with [Stamp.Same].
func (s Stamp) Now(path string) (Stamp, error) {
	if info, err := os.Stat(path); err == nil && !s.None() && info.Size() == s.size && info.ModTime().Equal(s.time) {
		return s, nil
	}
	return StampOf(path)
}

// Same reports whether two stamps are of the same content.
func (s Stamp) Same(o Stamp) bool { return s.hash == o.hash }

func stampData(data []byte, info fs.FileInfo) Stamp {
	sum := sha256.Sum256(data)
	return Stamp{info.Size(), info.ModTime(), hashWord + hex.EncodeToString(sum[:])}
}
