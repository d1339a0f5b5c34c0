package draw

import "golang.org/x/image/font/gofont/goregular"

// ReadFaceForBench reads a font afresh.
func ReadFaceForBench() { readFace(goregular.TTF) }
