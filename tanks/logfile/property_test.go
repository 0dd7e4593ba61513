package logfile

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// number writes a number in full, with what is stated after ±.
func number(v, sigma float64) string {
	if math.IsNaN(v) {
		return ""
	}
	s := strconv.FormatFloat(v, 'g', -1, 64)
	if sigma != 0 {
		s += " ± " + strconv.FormatFloat(sigma, 'g', -1, 64)
	}
	return s
}

// fields writes a row in the order of the columns of TestWritten.
func fields(row Row, totals bool) []string {
	in, out := number(row.Amount, row.AmountSigma), ""
	if row.Amount < 0 {
		in, out = "", number(-row.Amount, row.AmountSigma)
	}
	amounts := []string{in, out}
	if totals {
		amounts = []string{in}
	}
	return append(amounts, number(row.Reading, row.ReadingSigma), row.Needle,
		number(row.NoseUp, 0), number(row.LeftUp, 0), number(row.Temperature, 0), row.Note)
}

// draw makes a log; its first row has a reading.
func draw(t *rapid.T) *Log {
	log := &Log{
		Totals: rapid.Bool().Draw(t, "totals"), ByMass: rapid.Bool().Draw(t, "by mass"),
		Reads: rapid.SampledFrom([]ReadingKind{Ohms, Volts, Counts}).Draw(t, "reads"),
	}
	least := -greatestAmount
	if log.Totals {
		least = 0
	}
	texts := rapid.StringMatching(`|[a-z1-9/]([ -~½]{0,12}[a-z"])?`)
	sigmas := rapid.OneOf(rapid.Just(0.), rapid.Float64Range(0.01, 10))
	for i := range rapid.IntRange(1, 12).Draw(t, "rows") {
		row := Row{
			Line: i + 2, Amount: rapid.Float64Range(least, greatestAmount).Draw(t, "amount"), AmountSigma: sigmas.Draw(t, "of amount"),
			Reading: rapid.Float64Range(0, greatestReading).Draw(t, "reading"), ReadingSigma: sigmas.Draw(t, "of reading"),
			Needle: texts.Draw(t, "needle"), Note: texts.Draw(t, "note"),
			NoseUp: rapid.Float64Range(-60, 60).Draw(t, "nose up"), LeftUp: rapid.Float64Range(-60, 60).Draw(t, "left up"),
			Temperature: rapid.Float64Range(coldest, hottest).Draw(t, "temperature"),
		}
		if i > 0 && rapid.Bool().Draw(t, "unread") {
			row.Reading, row.ReadingSigma = math.NaN(), 0
		}
		if rapid.Bool().Draw(t, "no thermometer") {
			row.Temperature = math.NaN()
		}
		log.add(row)
	}
	return log
}

// TestWritten writes logs and reads them back.
func TestWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := draw(t)
		unit := map[bool]string{false: "litres", true: "kg"}[want.ByMass]
		amounts := []string{unit + "_added", unit + "_removed"}
		if want.Totals {
			amounts = []string{unit + "_total"}
		}
		records := [][]string{append(amounts, string(want.Reads), "needle", "nose_up", "left_up", "temperature", "note")}
		for _, row := range want.Rows {
			records = append(records, fields(row, want.Totals))
		}
		var b bytes.Buffer
		w := csv.NewWriter(&b)
		w.Comma = rapid.SampledFrom([]rune{',', ';'}).Draw(t, "separator")
		w.UseCRLF = rapid.Bool().Draw(t, "CRLF")
		if err := w.WriteAll(records); err != nil {
			t.Fatal(err)
		}
		got, err := Parse(b.Bytes())
		if err != nil {
			t.Fatalf("%v\n%s", err, b.String())
		}
		if got.Totals != want.Totals || got.ByMass != want.ByMass || got.Reads != want.Reads ||
			got.NeedleSeen != want.NeedleSeen || got.Tilted != want.Tilted || got.Warm != want.Warm || len(got.Rows) != len(want.Rows) {
			t.Fatalf("%+v, expected %+v", got, want)
		}
		for i, row := range got.Rows {
			if !alike(row, want.Rows[i]) {
				t.Fatalf("%+v, expected %+v\n%s", row, want.Rows[i], b.String())
			}
		}
	})
}

// TestUnits writes one amount in every unit of a heading, and reads the same.
func TestUnits(t *testing.T) {
	for heading, per := range map[string]float64{
		"l_%": 1, "L %": 1, "liters-%": 1, "ml_%": 1e-3, "us_gal_%": 3.785411784, "US gallons %": 3.785411784, "% (US gal)": 3.785411784,
		"imp_gal_%": 4.54609, "% [imp gal]": 4.54609, "uk_gal_%": 4.54609, "% (gal(UK))": 4.54609, "kg_%": 1, "g_%": 1e-3, "lb_%": 0.45359237, "% (oz)": 0.028349523125,
	} {
		for role, sign := range map[string]float64{"added": 1, "removed": -1, "total": 1} {
			text := strings.ReplaceAll(heading, "%", role) + ",ohms\n12.5 ± 0.5,100\n"
			got, err := Parse([]byte(text))
			if err != nil {
				t.Errorf("%q: %v", text, err)
				continue
			}
			want := Row{Line: 2, Amount: sign * 12.5 * per, AmountSigma: 0.5 * per, Reading: 100, Temperature: math.NaN()}
			if !alike(got.Rows[0], want) {
				t.Errorf("%q: %+v, expected %+v", text, got.Rows[0], want)
			}
		}
	}
}
