package ink

import (
	"bytes"
	"encoding/xml"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// sample draws what breaks easily: letters beyond ASCII, turned ones, an arc.
func sample(c vg.CanvasSizer) {
	d := draw.NewCanvas(c, 200, 100)
	style := draw.TextStyle{Color: Black, Font: Regular(12), Handler: Handler()}
	d.FillText(style, vg.Point{X: 10, Y: 10}, "Ω ° ½ – ± <& 1/4")
	style.Rotation = math.Pi / 2
	style.Font = Bold(12)
	d.FillText(style, vg.Point{X: 150, Y: 20}, "turned Ω")
	var p vg.Path
	p.Move(vg.Point{X: 60, Y: 50})
	p.Arc(vg.Point{X: 40, Y: 50}, 20, 0, math.Pi)
	d.SetLineDash(Dashed, 0)
	d.Stroke(p)
}

func write(t *testing.T, f Format) []byte {
	t.Helper()
	var buf bytes.Buffer
	if err := f.Write(&buf, `a "title" <x>`, 200, 100, sample); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

func TestFormatsAreTheSameEachTime(t *testing.T) {
	for _, f := range Formats {
		if !bytes.Equal(write(t, f), write(t, f)) {
			t.Errorf("%s: two runs differ", f)
		}
	}
}

func TestSVGHoldsTexts(t *testing.T) {
	out := string(write(t, SVG))
	for _, want := range []string{"Ω ° ½ – ± &lt;&amp; 1/4", "textLength=", "Arial", "<title>a &#34;title&#34; &lt;x&gt;</title>"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in the SVG", want)
		}
	}
	if !strings.HasPrefix(out, "<svg ") {
		t.Errorf("it begins with %.40q, expected the element itself", out)
	}
}

// TestPDFLettersReadBack reads the PDF with a general-purpose program, where there is one.
func TestPDFLettersReadBack(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("no pdftotext here")
	}
	path := filepath.Join(t.TempDir(), "sample.pdf")
	if err := os.WriteFile(path, write(t, PDF), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Ω ° ½ – ± <& 1/4"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("no %q in %q", want, out)
		}
	}
}

// TestStrangeTexts writes texts that no font has and that no file may hold.
func TestStrangeTexts(t *testing.T) {
	for _, text := range []string{"\U0001F600", "\xff\xfe", "\x00\x1b[1m", "\u202e", "漢字", "<![CDATA[", "a\nb"} {
		for _, f := range Formats {
			var buf bytes.Buffer
			err := f.Write(&buf, text, 200, 100, func(c vg.CanvasSizer) {
				d := draw.NewCanvas(c, 200, 100)
				d.FillText(draw.TextStyle{Color: Black, Font: Regular(12), Handler: Handler()}, vg.Point{X: 10, Y: 10}, text)
			})
			if err != nil {
				t.Errorf("%q as %s: %v", text, f, err)
			}
			if f == SVG {
				if err := xml.Unmarshal(buf.Bytes(), new(struct{})); err != nil {
					t.Errorf("%q: the SVG is no XML: %v", text, err)
				}
			}
		}
	}
}

func TestFormatOf(t *testing.T) {
	for path, want := range map[string]Format{"a.svg": SVG, "b/c.PNG": PNG, "d.pdf": PDF} {
		if got, err := FormatOf(path); got != want || err != nil {
			t.Errorf("%s: %q, %v", path, got, err)
		}
	}
	if _, err := FormatOf("x.jpg"); err == nil {
		t.Error("x.jpg: no error")
	}
}

func TestSurvey(t *testing.T) {
	s := NewSurvey(200, 100)
	sample(s)
	if len(s.Texts) != 2 || s.Texts[1].Turn < 1.5 || !s.Texts[1].Bold {
		t.Fatalf("texts %+v", s.Texts)
	}
	if texts, by := s.Outside(); texts != nil || by != 0 {
		t.Errorf("outside: %q by %v", texts, by)
	}
	if o := s.Overlaps(); o != nil {
		t.Errorf("overlaps %q", o)
	}
	small := NewSurvey(100, 60)
	sample(small)
	sample(small)
	if texts, by := small.Outside(); len(texts) != 2 || by < 40 {
		t.Errorf("outside a small one: %q by %v", texts, by)
	}
	if len(small.Overlaps()) < 2 {
		t.Error("two texts on one place do not overlap")
	}
	if got := s.Bounds; math.Abs(float64(got.Min.X-10)) > 1 || got.Max.Y < 70 {
		t.Errorf("bounds %v", got)
	}
}
