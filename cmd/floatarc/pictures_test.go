package main

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// smallestInPrint is that of letters in a picture printed 80 mm wide, points.
const smallestInPrint = 6

// picturesOf are those of a rig.
func picturesOf(t *testing.T, rig, units string) *pictures {
	t.Helper()
	o := &options{units: units}
	var f plotFlags
	f.plan.method, f.plan.neverOver = atMarks, quarter
	f.size.diameter = usualDiameter
	p, err := o.pictures(rig, f)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// drawn draws a picture; nil where the rig does not have it, which must be said in full.
func (p *pictures) drawn(t *testing.T, k pictureKind) picture {
	t.Helper()
	drawn, err := k.draw(p)
	if err != nil {
		if !strings.Contains(err.Error(), "expected") {
			t.Errorf("%s %s: %v", p.job.file.File, k.name, err)
		}
		return nil
	}
	return drawn
}

// TestPicturesAreReadable draws every picture of every built-in rig in all units: nothing lies
// outside, no text covers another, none is too small, and what it must say is there.
func TestPicturesAreReadable(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	rigs, _ := tanks.Names()
	rigs = append(rigs, "testdata/rigs/stem.toml", "testdata/rigs/probe.toml", "testdata/rigs/table.toml", "testdata/rigs/poured.toml", "testdata/rigs/marks.toml")
	for _, rig := range rigs {
		p := picturesOf(t, rig, "metric")
		for _, units := range []string{"metric", "us", "imperial"} {
			sys, _ := quantity.Named(units)
			p.job.sys = sys // the lamp, found once, is the same in all
			for _, k := range pictureKinds {
				if k.fullSize {
					continue // tested with their paper
				}
				picture := p.drawn(t, k)
				if picture == nil {
					continue
				}
				name := rig + " " + k.name + " in " + units
				w, h := picture.Size()
				s := ink.NewSurvey(w, h)
				picture.Paint(s)
				if texts, by := s.Outside(); by > 0.01 {
					t.Errorf("%s: %q reach %.2f points beyond the canvas", name, texts, by)
				}
				for _, pair := range s.Overlaps() {
					t.Errorf("%s: %q and %q overlap", name, pair[0], pair[1])
				}
				all := ""
				for _, text := range s.Texts {
					all += text.String + "\n"
					if size := float64(text.Size) * float64(80*vg.Millimeter/w); size < smallestInPrint {
						t.Errorf("%s: %q is %.1f points tall in print", name, text.String, size)
					}
				}
				if !strings.Contains(all, sys.Volume.Symbol) {
					t.Errorf("%s: no %s in it", name, sys.Volume.Symbol)
				}
				for _, m := range []string{"E", "1/2", "F"} {
					if k.name != "reserve" && !strings.Contains(all, m) {
						t.Errorf("%s: mark %s is not named", name, m)
					}
				}
			}
		}
	}
}

// TestGallery compares the pictures of the gallery with what the command draws now; go
// generate ./plots draws them anew, and then they want to be looked at.
func TestGallery(t *testing.T) {
	p := picturesOf(t, tanks.Demo, "metric")
	p.flags.uncertain = uncertainFlags{asked: true, count: 2000, seed: 1} // as go generate says
	for _, k := range pictureKinds {
		drawn := p.drawn(t, k)
		if drawn == nil {
			t.Fatalf("%s: not drawn", k.name)
		}
		var got bytes.Buffer
		w, h := drawn.Size()
		if err := ink.SVG.Write(&got, drawn.Title(), w, h, drawn.Paint); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join("..", "..", "plots", "gallery", k.name+".svg")
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got.Bytes(), want) {
			t.Errorf("%s is not what the command draws", path)
		}
	}
}

// TestPictureFormats writes one picture in every format.
func TestPictureFormats(t *testing.T) {
	picture := picturesOf(t, tanks.Demo, "metric").drawn(t, pictureKinds[0])
	for format, begins := range map[ink.Format]string{ink.SVG: "<svg ", ink.PNG: "\x89PNG", ink.PDF: "%PDF-"} {
		var buf bytes.Buffer
		w, h := picture.Size()
		if err := format.Write(&buf, picture.Title(), w, h, picture.Paint); err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(buf.String(), begins) {
			t.Errorf("%s begins with %.8q", format, buf.String())
		}
	}
	if w, h := picture.Size(); math.Abs(float64(w/vg.Millimeter)-120) > 1e-6 || h < w/2 {
		t.Errorf("size %v by %v", w, h)
	}
}
