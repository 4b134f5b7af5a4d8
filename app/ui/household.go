package ui

import (
	"io"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"feltpage/app/andika"
	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/nlp"
)

// showHousehold shows who lives here, how things look, what belongs to the
// family, safety, and the keeping of the data.
func (p *Program) showHousehold() {
	p.tab = tabHousehold
	targets := map[string]fyne.CanvasObject{}
	var page *parts.Page
	relayout := func() { page.Relayout() }
	page = parts.NewPage(880, look.L,
		title(say.T("household.title"), ""),
		p.householdLearners(targets, relayout),
		p.householdLight(targets),
		p.householdFamilies(targets),
		p.householdExpressions(targets),
		p.householdSafety(targets),
		p.householdData(targets),
		p.householdAbout(targets),
	)
	p.guide(view{name: "household", targets: targets, content: page})
}

// householdLearners shows the learners, and the look of the one that is open.
func (p *Program) householdLearners(targets map[string]fyne.CanvasObject, relayout func()) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("household.learners")))
	list := parts.Stack(0)
	for i, l := range p.learners {
		r := parts.NewRow(l.Nickname, say.T("setup.mode."+string(l.Mode)), "", func() { p.choose(i) })
		r.Chosen = i == p.learner
		list.Add(r)
	}
	block.Add(list)
	add := parts.NewButton(say.T("household.add-learner"), parts.Plain, p.showSetup)
	targets["add-learner"] = add
	block.Add(parts.AtLeft(add))
	if p.learner < 0 {
		return parts.NewCard(block)
	}
	l := p.who()
	save := func() {
		if _, err := p.deps.Store.SaveLearner(l); err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.learners[p.learner] = l
	}
	pick := p.lookPicker(&l.Look, func() { save(); relayout() })
	targets["smaller"], targets["larger"] = pick.smaller, pick.larger
	nick := parts.NewField(say.T("setup.nickname"), "", "")
	nick.SetText(l.Nickname)
	rename := parts.NewButton(say.T("words.rename"), parts.Plain, func() {
		if s := strings.Join(strings.Fields(nick.Text()), " "); s != "" {
			l.Nickname = s
			save()
			p.open(tabHousehold)
		}
	})
	nick.Entry.OnSubmitted = func(string) { rename.Tapped(nil) }
	dark := parts.NewTick(say.T("look.dark"), l.Look.Dark, func(on bool) { l.Look.Dark = on; save() })
	touches := parts.NewTick(say.T("look.touches"), l.Look.Touches, func(on bool) { l.Look.Touches = on; save() })
	var names []string
	for _, d := range model.Apart {
		names = append(names, say.T("household.apart."+string(d)))
	}
	apart := parts.NewPick(names, slices.Index(model.Apart, p.house.ApartFor(l.ID)), func(i int) {
		if err := p.house.SetApart(l.ID, model.Apart[i]); err != nil {
			p.trouble(say.Error(err))
		}
	})
	for i, d := range model.Apart {
		targets["apart-"+string(d)] = apart.Button(i)
	}
	erase := parts.NewButton(say.T("household.erase-learner", say.S{"name": l.Nickname}), parts.Quiet, func() {
		p.confirm(say.T("household.erase-learner-ask", say.S{"name": l.Nickname}), say.T("household.erase-learner-more"), say.T("household.erase-yes"), func() {
			if err := p.deps.Store.EraseLearner(l.ID); err != nil {
				p.trouble(say.Error(err))
				return
			}
			p.forget()
			p.begin()
		})
	})
	targets["erase-learner"] = erase
	block.Add(parts.Gap(look.S))
	block.Add(bold(say.T("household.look", say.S{"name": l.Nickname})))
	block.Add(pick.object)
	block.Add(dark)
	block.Add(touches)
	block.Add(bold(say.T("household.apart")))
	block.Add(apart)
	block.Add(parts.Columns(look.S, []float32{1, 0}, nick, parts.Bottom(rename)))
	block.Add(parts.AtLeft(erase))
	return parts.NewCard(block)
}

// householdLight chooses light or dark for the guide's side.
func (p *Program) householdLight(targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	values := []string{"", "dark", "system"}
	now, _ := p.deps.Store.Setting(model.SettingLightness)
	at := 0
	for i, v := range values {
		if v == now {
			at = i
		}
	}
	pick := parts.NewPick([]string{say.T("light.light"), say.T("light.dark"), say.T("light.system")}, at, func(i int) {
		if err := p.deps.Store.SetSetting(model.SettingLightness, values[i]); err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.setLightness()
		p.open(tabHousehold)
	})
	targets["light"], targets["dark"] = pick.Button(0), pick.Button(1)
	return card(look.M, head(say.T("light.title")), pick)
}

// householdFamilies lets the household add feelings of its own.
func (p *Program) householdFamilies(targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("household.families")), parts.NewSoft(say.T("household.families-more"), look.Text))
	row := parts.Flow(look.S)
	for _, f := range p.families {
		if !f.Away {
			row.Add(parts.NewWordCard(f.Name, parts.Full, func() { p.openWords(f.FamilyID) }))
		}
	}
	if len(row.Objects) > 0 {
		block.Add(row)
	}
	name := parts.NewField("", "", say.T("household.family-hint"))
	add := parts.NewButton(say.T("household.family-add"), parts.Plain, nil)
	add.OnTapped = func() {
		s := strings.Join(strings.Fields(name.Text()), " ")
		if s == "" {
			return
		}
		if _, err := p.deps.Store.SaveFamily(record.Family{FamilyID: model.OwnFamilyID(s), Name: s}); err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.words = map[string]*model.Words{}
		if err := p.reload(); err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.open(tabHousehold)
	}
	name.Entry.OnSubmitted = func(string) { add.Tapped(nil) }
	targets["family"], targets["family-add"] = name.Entry, add
	block.Add(parts.Columns(look.S, []float32{1, 0}, name, parts.Bottom(add)))
	return parts.NewCard(block)
}

// householdExpressions lets the household say by which words its stories show a
// feeling; the reading looks for them too.
func (p *Program) householdExpressions(targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("household.expressions")), parts.NewSoft(say.T("household.expressions-more"), look.Text))
	all, err := p.deps.Store.Expressions()
	if err != nil {
		block.Add(parts.NewWords(say.Error(err), look.Text))
	}
	save := func(x record.Expression) {
		if _, err := p.deps.Store.SaveExpression(x); err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.expression = ""
		if err := p.reload(); err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.open(tabHousehold)
	}
	for _, x := range all {
		if x.Away || len(x.Families) == 0 {
			continue
		}
		away := parts.NewButton(say.T("words.away"), parts.Quiet, func() {
			x.Away = true
			save(x)
		})
		text := say.T("household.expression", say.S{"words": x.Text, "feeling": model.FamilyName(x.Families[0].Family, p.families)})
		block.Add(parts.Line(look.M, []float32{1, 0}, parts.NewWords(text, look.Text), away))
	}
	var ids, names []string
	for _, id := range p.house.Table.IDs() {
		ids, names = append(ids, id), append(names, model.FamilyName(id, p.families))
	}
	for _, f := range p.families {
		if !f.Away && !slices.Contains(ids, f.FamilyID) {
			ids, names = append(ids, f.FamilyID), append(names, f.Name)
		}
	}
	at := 0
	feeling := parts.NewMenu(names, at, func(i int) { at = i })
	text := parts.NewField("", "", say.T("household.expression-hint"))
	text.SetText(p.expression)
	text.Entry.OnChanged = func(s string) { p.expression = s }
	add := parts.NewButton(say.T("household.family-add"), parts.Plain, func() {
		if s := strings.Join(strings.Fields(text.Text()), " "); s != "" {
			save(record.Expression{Text: s, Kind: nlp.Body, Families: []nlp.Weight{{Family: ids[at], Weight: 1}}})
		}
	})
	text.Entry.OnSubmitted = func(string) { add.Tapped(nil) }
	targets["expression"], targets["expression-feeling"], targets["expression-add"] = text.Entry, feeling.Select, add
	block.Add(parts.Columns(look.S, []float32{3, 2, 0}, text, feeling, add))
	return parts.NewCard(block)
}

// householdSafety shows the cautions and the page for when a learner tells of
// harm, with room for the local numbers.
func (p *Program) householdSafety(targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("safety.title")))
	for _, k := range []string{"safety.told.1", "safety.told.2", "safety.told.3", "safety.told.4"} {
		block.Add(parts.NewWords(say.T(k), look.Text))
	}
	numbers := parts.NewLongField(say.T("safety.numbers"), say.T("safety.numbers-more"), say.T("safety.numbers-hint"), 4)
	kept, err := p.deps.Store.Setting(model.SettingNumbers)
	numbers.SetText(kept)
	numbers.Entry.OnChanged = func(s string) {
		if err := p.deps.Store.SetSetting(model.SettingNumbers, s); err != nil {
			p.trouble(say.Error(err))
		}
	}
	if err != nil {
		block.Add(parts.NewWords(say.Error(err), look.Text))
	}
	targets["numbers"] = numbers.Entry
	block.Add(numbers)
	block.Add(parts.Gap(look.S))
	block.Add(bold(say.T("cautions.title")))
	for _, k := range []string{"cautions.practice", "cautions.illness", "cautions.medicine", "cautions.trying", "cautions.law"} {
		block.Add(parts.NewWords(say.T(k), look.Text))
	}
	return parts.NewCard(block)
}

// householdData keeps, hands out and erases the data: one action each.
func (p *Program) householdData(targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	backup := parts.NewButton(say.T("data.backup"), parts.Plain, func() {
		p.savePath("feltpage-"+p.house.Today()+".backup", p.deps.Store.Backup)
	})
	export := parts.NewButton(say.T("data.export"), parts.Plain, func() {
		p.saveFile("feltpage-"+p.house.Today()+".jsonl", func(w io.Writer) error { return p.deps.Store.Export(w) })
	})
	erase := parts.NewButton(say.T("data.erase"), parts.Quiet, func() {
		p.confirm(say.T("data.erase-ask"), say.T("data.erase-more"), say.T("household.erase-yes"), func() {
			if err := p.deps.Store.EraseAll(); err != nil {
				p.trouble(say.Error(err))
				return
			}
			p.forget()
			p.setLightness()
			p.begin()
		})
	})
	restore := parts.NewButton(say.T("data.restore"), parts.Plain, p.askRestore)
	targets["backup"], targets["export"], targets["erase"], targets["restore"] = backup, export, erase, restore
	row := parts.Flow(look.M, backup, export, restore, erase)
	return card(look.M, head(say.T("data.title")),
		parts.NewWords(say.T("data.where", say.S{"folder": p.deps.Store.Dir()}), look.Text),
		parts.NewSoft(say.T("data.private"), look.Text),
		row)
}

// askRestore asks for a backup, then once more, and puts it in place.
func (p *Program) askRestore() {
	p.openPath(nil, func(path string) {
		p.confirm(say.T("data.restore-ask"), say.T("data.restore-more"), say.T("data.restore-yes"), func() { p.restore(path) })
	})
}

// restore puts a backup in place of the household.
func (p *Program) restore(path string) {
	err := p.deps.Store.Restore(path)
	p.forget()
	p.setLightness()
	p.begin()
	if err != nil {
		p.trouble(say.Error(err))
	}
}

// householdAbout names what the program is made from.
func (p *Program) householdAbout(targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	licence := parts.NewButton(say.T("about.licence"), parts.Quiet, func() {
		ok := parts.NewButton(say.T("dialog.understood"), parts.Main, nil)
		p.ask("licence", parts.NewWords(unwrap(andika.Licence), look.Caption), ok)
	})
	targets["licence"] = licence
	return card(look.M, head(say.T("about.title")),
		parts.NewSoft(say.T("about.text", say.S{"engine": p.deps.Version}), look.Text),
		parts.AtLeft(licence))
}

// unwrap joins the lines of paragraphs, so that they wrap to our own width.
func unwrap(s string) string {
	paras := strings.Split(strings.ReplaceAll(s, "\r\n", "\n"), "\n\n")
	for i, p := range paras {
		paras[i] = strings.Join(strings.Fields(p), " ")
	}
	return strings.Join(paras, "\n")
}
