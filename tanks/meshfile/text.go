package meshfile

import (
	"bytes"
	"strconv"
	"unsafe"

	"gonum.org/v1/gonum/spatial/r3"
)

// eachLine visits the words of every line that has some, until an error.
func eachLine(data []byte, visit func(number int, words [][]byte) error) error {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	end := byte('\n')
	if bytes.IndexByte(data, end) < 0 {
		end = '\r' // as old programs end lines
	}
	var words [][]byte
	for number := 1; len(data) > 0; number++ {
		line := data
		if i := bytes.IndexByte(data, end); i >= 0 {
			line, data = data[:i], data[i+1:]
		} else {
			data = nil
		}
		words = split(words[:0], line)
		if len(words) == 0 {
			continue
		}
		if err := visit(number, words); err != nil {
			return err
		}
	}
	return nil
}

// split appends the words of a line.
func split(words [][]byte, line []byte) [][]byte {
	for i := 0; i < len(line); {
		for i < len(line) && blank(line[i]) {
			i++
		}
		from := i
		for i < len(line) && !blank(line[i]) {
			i++
		}
		if i > from {
			words = append(words, line[from:i])
		}
	}
	return words
}

func blank(b byte) bool { return b == ' ' || b == '\t' || b == '\r' || b == '\v' || b == '\f' }

// vertex reads a point from the first three words.
func vertex(words [][]byte) (r3.Vec, bool) {
	if len(words) < 3 {
		return r3.Vec{}, false
	}
	var c [3]float64
	for i := range c {
		var err error
		if c[i], err = strconv.ParseFloat(text(words[i]), 64); err != nil {
			return r3.Vec{}, false
		}
	}
	p := r3.Vec{X: c[0], Y: c[1], Z: c[2]}
	return p, finite(p)
}

// text sees bytes as a string without copying them; it is used only for calls
// that do not keep it.
func text(b []byte) string { return unsafe.String(unsafe.SliceData(b), len(b)) }

// clip shortens a word of a file for a message.
func clip(word []byte) string {
	if len(word) > 20 {
		return string(word[:20]) + "…"
	}
	return string(word)
}
