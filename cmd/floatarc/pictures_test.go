package main

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
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
	t.Parallel()
	for _, rig := range allRigs(t) {
		p := picturesOf(t, rig, "metric")
		for _, units := range []string{"metric", "us", "imperial"} {
			if units == "us" && rig != tanks.Demo {
				continue // imperial gallons take the most room, litres the most digits
			}
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
				for _, want := range p.says(t, k.name) {
					if !strings.Contains("\n"+all, want) {
						t.Errorf("%s: it does not say %q", name, want)
					}
				}
			}
		}
	}
}

// allRigs are the built-in ones and those of this folder.
func allRigs(t *testing.T) []string {
	t.Helper()
	rigs, _ := tanks.Names()
	more, err := filepath.Glob("testdata/rigs/*.toml")
	if err != nil || len(more) < 10 {
		t.Fatalf("%d rigs in testdata, %v", len(more), err)
	}
	return append(rigs, more...)
}

// says are texts that a picture must hold, by what the commands tell of the same.
func (p *pictures) says(t *testing.T, name string) (out []string) {
	t.Helper()
	j := p.job
	switch name {
	case "tank":
		for _, m := range j.rig.Dial.Marks { // the names of marks may be cut
			out = append(out, "\n"+j.sys.Volume.Text(j.rig.Dial.Litres(m.Share))+"\n")
		}
		out = append(out, "fuel up to full, "+j.sys.Volume.Text(j.rig.Tank.Full))
	case "points":
		plan, err := j.plan(p.flags.plan)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range plan.points {
			out = append(out, "\n"+q.Label+"  "+one(q.InputOhms)+" Ω\n")
		}
	case "dial":
		for _, m := range j.rig.Dial.Marks {
			if litres := j.sys.Volume.Of(j.rig.Dial.Litres(m.Share)); litres < 99.9 && litres > -0.05 {
				out = append(out, "\n"+one(litres)+"\n")
			}
		}
	case "error":
		out = []string{"points at the marks", "best points"}
	}
	return out
}

// TestDialTellsWhatTheNeedleShows holds the litres beside each mark, wired straight, against the
// needle's own place with as much in the tank.
func TestDialTellsWhatTheNeedleShows(t *testing.T) {
	p := picturesOf(t, "genset", "metric")
	j := p.job
	picture, err := p.dial()
	if err != nil {
		t.Fatal(err)
	}
	w, h := picture.Size()
	s := ink.NewSurvey(w, h)
	picture.Paint(s)
	direct := j.file.Gauge.Response
	found := 0
	for _, text := range s.Texts {
		litres, err := strconv.ParseFloat(text.String, 64)
		if err != nil {
			continue
		}
		shown := direct.Show(j.rig.Input(p.rel, litres))
		for _, m := range j.rig.Dial.Marks {
			if math.Abs(shown-m.Position) < 0.002 { // a tenth of a litre is a seven-hundredth of this dial
				found++
			}
		}
	}
	// 1/4, 1/2 and 3/4 of the straight row; E and F are ranges.
	if found < 3 {
		t.Errorf("only %d numbers stand for a needle on a mark, wired straight", found)
	}
}

// TestAttitudeIsNamed: pictures of a slope say so, and those that do not hang on it refuse it.
func TestAttitudeIsNamed(t *testing.T) {
	o := &options{units: "metric"}
	f := plotFlags{att: attitude{NoseUp: -6}}
	f.plan.method, f.plan.neverOver = atMarks, quarter
	p, err := o.pictures(tanks.Demo, f)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range pictureKinds {
		if slices.Contains(levelOnly, k.name) {
			continue
		}
		drawn := p.drawn(t, k)
		if !strings.Contains(drawn.Title(), "nose down by 6.00°") {
			t.Errorf("%s: %q does not name the slope", k.name, drawn.Title())
		}
		w, h := drawn.Size()
		s := ink.NewSurvey(w, h)
		drawn.Paint(s)
		for _, text := range s.Texts {
			if strings.Contains(text.String, "best points never do") {
				t.Errorf("%s: it promises on a slope what holds on level ground", k.name)
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
