package sheet

import (
	"bytes"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// readBack returns the text of a PDF as a general-purpose program reads it.
func readBack(t *testing.T, data []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("no pdftotext here")
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestPDFTextsReadBack(t *testing.T) {
	got := readBack(t, pdf(t, sample(ink.A4)))
	for _, want := range []string{
		"Worksheet: demo tank", "240 to 34 Ω", "! Never put a bench supply", "°C", "the terminals", "162.8", "Seen from the left",
		"240 Ω, needle at ½", "its diameter ± 0.5", "• A spare gasket.", "page 1 of 2", "page 2 of 2", "demo tank – prove it with a fuel can",
	} {
		if !regexp.MustCompile(strings.ReplaceAll(regexp.QuoteMeta(want), " ", `\s+`)).MatchString(got) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

var leaves = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

// sheets is how many pages a PDF has.
func sheets(data []byte) int { return len(leaves.FindAll(data, -1)) }

func TestPageCount(t *testing.T) {
	long := &Document{Title: "long", Pages: []Page{{points(200)}}}
	for name, c := range map[string]struct {
		d    *Document
		want int
	}{
		"nothing":         {&Document{}, 1},
		"an empty page":   {&Document{Pages: []Page{{}}}, 1},
		"two empty pages": {&Document{Pages: []Page{{}, {}}}, 2},
		"the sample":      {sample(ink.A4), 2},
		"on Letter":       {sample(ink.Letter), 2},
		"200 rows":        {long, 6},
	} {
		got, err := c.d.PageCount()
		if err != nil {
			t.Fatal(err)
		}
		if n := sheets(pdf(t, c.d)); got != c.want || n != c.want {
			t.Errorf("%s: counted %d, the PDF has %d, expected %d", name, got, n, c.want)
		}
	}
}

func TestTableHeadIsRepeated(t *testing.T) {
	got := readBack(t, pdf(t, &Document{Title: "long", Pages: []Page{{Heading{"Points"}, points(200)}}}))
	pages := strings.Split(strings.TrimSuffix(got, "\f"), "\f")
	rows := regexp.MustCompile(`(?m)^\s*\d+\s+[\d.]+\s+[\d.]+\s+[\d.]+\s*$`)
	all := 0
	for i, page := range pages {
		if !strings.Contains(page, "the terminals") {
			t.Errorf("no head on sheet %d", i+1)
		}
		all += len(rows.FindAllString(page, -1))
	}
	if all != 200 {
		t.Errorf("%d rows, expected 200", all)
	}
}

func TestSameBytesEachTime(t *testing.T) {
	if !bytes.Equal(pdf(t, sample(ink.A4)), pdf(t, sample(ink.A4))) {
		t.Error("two PDFs differ")
	}
	if first, second := html(t, sample(ink.A4)), html(t, sample(ink.A4)); first != second {
		t.Error("two pages of HTML differ")
	}
}

// odd are texts that break what is made for plain ones.
var odd = map[string]string{
	"long word":         strings.Repeat("Aussentank", 300),
	"long text":         strings.Repeat("a tank of many words ", 400),
	"many lines":        strings.Repeat("line\n", 200),
	"letters beyond it": "燃料タンク 😀 \U00010000 عربى e\u0301 \u200b\u00ad\u202f",
	"broken UTF-8":      "\xff\xfe\xc3",
	"controls":          "a\x00b\r\n\tc\x1b[31m",
	"blanks":            " \n \n",
	"nothing":           "",
}

func TestOddTexts(t *testing.T) {
	for name, text := range odd {
		for _, size := range []ink.Paper{ink.A4, ink.Letter} {
			d := hostile(text)
			d.Size = size
			html(t, d)
			n, err := d.PageCount()
			if got := sheets(pdf(t, d)); err != nil || got != n {
				t.Errorf("%s: %d pages counted, %d written, %v", name, n, got, err)
			}
		}
	}
}

func TestUnknownLettersAreShown(t *testing.T) {
	if got, want := ink.Legible("tank 燃料 😀 \xff ½\u200b\t."), "tank □□ □ □ ½ ."; got != want {
		t.Errorf("%q, expected %q", got, want)
	}
}

// TestNothingLeavesTheSheet lays out texts of all kinds and looks where they end.
func TestNothingLeavesTheSheet(t *testing.T) {
	documents := map[string]*Document{"sample": sample(ink.Letter), "200 rows": {Pages: []Page{{points(200)}}}}
	for name, text := range odd {
		documents[name] = hostile(text)
	}
	for name, d := range documents {
		p, err := d.laid()
		if err != nil {
			t.Fatal(err)
		}
		at := place{width: p.width}
		for _, page := range d.Pages {
			for _, b := range page {
				at = b.put(p, at)
				if at.y > p.height+slack {
					t.Errorf("%s: %T ends %.1f points below the sheet", name, b, at.y-p.height)
				}
			}
		}
	}
}

func TestHeadingStaysWithWhatItHeads(t *testing.T) {
	for n := 25; n < 45; n++ {
		page := Page{}
		for range n {
			page = append(page, Paragraph{Text: "text"})
		}
		page = append(page, Heading{"Points to store"}, points(6))
		pages := strings.Split(readBack(t, pdf(t, &Document{Title: "x", Pages: []Page{page}})), "\f")
		for _, text := range pages {
			if strings.Contains(text, "Points to store") != strings.Contains(text, "the terminals") {
				t.Errorf("%d paragraphs: the heading is on another sheet than the table", n)
			}
		}
	}
}

func TestWhatIsRefused(t *testing.T) {
	nan := vg.Length(math.NaN())
	for want, b := range map[string]Block{
		"block 1: there is none, expected one":                                       nil,
		"block 1: the table has no columns, expected at least one":                   Table{},
		"block 1: row 1 of the table has 2 cells, expected at most 1":                Table{Columns: []Column{{}}, Rows: []Row{{Cells: []string{"", ""}}}},
		"block 1: the figure has no picture, expected one":                           Figure{},
		"block 1: the picture is NaN by NaN points large, expected more than 0":      Figure{Picture: drawing{width: nan}},
		"block 1: the figure is NaN points wide, expected 0 or more":                 Figure{Picture: side, Width: nan},
		"block 1: fields in 5 columns, expected 1 to 4":                              Fields{Columns: 5},
		"block 1: the left column's share is 0.9, expected 0.15 to 0.85":             Columns{Share: 0.9},
		"block 1: columns stand within columns, expected them side by side":          Columns{Left: []Block{Columns{}}},
		"block 1: columns, block 2: the table has no columns, expected at least one": Columns{Right: []Block{Heading{}, Table{}}},
	} {
		d := &Document{Pages: []Page{{}, {b}}}
		for _, err := range []error{d.HTML(&bytes.Buffer{}), d.PDF(&bytes.Buffer{})} {
			if err == nil || err.Error() != "worksheet, page 2, "+want {
				t.Errorf("%v, expected %s", err, want)
			}
		}
	}
	if _, err := (&Document{Size: ink.Paper{Name: "a4; }", Width: 1, Height: 1}}).PageCount(); err == nil {
		t.Error("no error about a paper of 1 by 1 points")
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestWriteErrors(t *testing.T) {
	for _, err := range []error{sample(ink.A4).HTML(full{}), sample(ink.A4).PDF(full{})} {
		if err == nil || !strings.Contains(err.Error(), "no space left") {
			t.Errorf("%v", err)
		}
	}
}

func TestShare(t *testing.T) {
	for _, c := range []struct {
		wants []want
		room  float64
		is    []float64
	}{
		{[]want{{10, 20}, {10, 30}}, 60, []float64{20, 30}},
		{[]want{{10, 20}, {10, 90}}, 60, []float64{20, 40}},
		{[]want{{10, 90}, {10, 90}, {5, 5}}, 65, []float64{30, 30, 5}},
		{[]want{{50, 90}, {100, 200}}, 75, []float64{25, 50}},
		{nil, 75, nil},
	} {
		for i, got := range share(c.wants, c.room) {
			if math.Abs(got-c.is[i]) > 1e-6 {
				t.Errorf("%v in %g: column %d is %g, expected %g", c.wants, c.room, i+1, got, c.is[i])
			}
		}
	}
}
