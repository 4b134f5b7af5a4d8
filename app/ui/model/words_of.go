package model

import (
	"strconv"
	"strings"
	"time"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// And joins things as one says them: "a, b and c".
func And(things []string) string { return join(things, "list.and") }

// Or joins things as choices: "a, b or c".
func Or(things []string) string { return join(things, "list.or") }

func join(things []string, last string) string {
	switch len(things) {
	case 0:
		return ""
	case 1:
		return things[0]
	}
	return say.T(last, say.S{"rest": strings.Join(things[:len(things)-1], say.T("list.comma")+" "), "last": things[len(things)-1]})
}

// Count says a number with its thing: key.one for 1, key.many with {n} else.
func Count(key string, n int) string {
	if n == 1 {
		return say.T(key + ".one")
	}
	return say.T(key+".many", say.S{"n": strconv.Itoa(n)})
}

// DayName says a local date ("2006-01-02") as "Tuesday 3 November"; what is no
// date is given back as it is.
func DayName(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return say.T("date.long", say.S{
		"weekday": say.T("weekday." + strconv.Itoa(int(t.Weekday()))),
		"day":     strconv.Itoa(t.Day()), "month": say.T("month." + strconv.Itoa(int(t.Month()))),
	})
}

// ShortDay says a date as "3 Nov".
func ShortDay(t time.Time) string {
	return say.T("date.short", say.S{"day": strconv.Itoa(t.Day()), "month": say.T("month.short." + strconv.Itoa(int(t.Month())))})
}

// Since says how long ago a day was, as people say it.
func Since(day string, now time.Time) string {
	d, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	today, _ := time.Parse(time.DateOnly, now.Format(time.DateOnly))
	switch n := int(today.Sub(d).Hours() / 24); {
	case n == 0:
		return say.T("date.today")
	case n == 1:
		return say.T("date.yesterday")
	case n > 1 && n < 7:
		return say.T("date.days-ago", say.S{"n": strconv.Itoa(n)})
	}
	return DayName(day)
}

// FamilyName gives the name of a feeling family, the household's own ones too.
func FamilyName(id string, own []record.Family) string {
	for _, f := range own {
		if f.FamilyID == id {
			return f.Name
		}
	}
	if k := "family." + id; say.English().Has(k) {
		return say.T(k)
	}
	return id
}

// PlaceName gives the name of a body place.
func PlaceName(id string) string {
	if k := "place." + id; say.English().Has(k) {
		return say.T(k)
	}
	return id
}

// ReasonText says a reason of the engine, of marking or of growth; none is "".
func ReasonText(r nlp.Reason) string {
	if r.Code == "" {
		return ""
	}
	return say.R(r)
}

// familyLine gives the plain sentence about a family, or "".
func familyLine(t *feelings.Table, id string) string {
	if t == nil {
		return ""
	}
	if f, ok := t.Family(id); ok && f.Line != "" {
		return say.T(f.Line)
	}
	return ""
}
