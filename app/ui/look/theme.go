package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Mode says which variant a theme shows.
type Mode int

// Modes.
const (
	AsSystem Mode = iota // what the desktop asks for
	AlwaysLight
	AlwaysDark
)

// Colour names beside Fyne's own, to be used with theme.Color.
const (
	ColourAside fyne.ThemeColorName = "feltpage-aside"
	ColourCard  fyne.ThemeColorName = "feltpage-card"
	ColourDeep  fyne.ThemeColorName = "feltpage-deep"
	ColourEdge  fyne.ThemeColorName = "feltpage-edge"
	ColourLit   fyne.ThemeColorName = "feltpage-lit"
	ColourSoft  fyne.ThemeColorName = "feltpage-soft"
	ColourSunk  fyne.ThemeColorName = "feltpage-sunk"
	ColourTint  fyne.ThemeColorName = "feltpage-tint"
)

// Theme is Feltpage's look as a Fyne theme.
type Theme struct{ mode Mode }

var _ fyne.Theme = (*Theme)(nil)

// New makes the theme.
func New(mode Mode) *Theme { return &Theme{mode: mode} }

// Palette gives the colours of a variant.
func (t *Theme) Palette(v fyne.ThemeVariant) Palette {
	switch {
	case t.mode == AlwaysDark, t.mode == AsSystem && v == theme.VariantDark:
		return Dark
	}
	return Light
}

// Now gives the colours that are on screen, whichever theme is set.
func Now() Palette {
	s := fyne.CurrentApp().Settings()
	if t, ok := s.Theme().(*Theme); ok {
		return t.Palette(s.ThemeVariant())
	}
	return Light
}

// Color looks up a colour. Error, warning and success are plain ink and hue: a
// message says what is wrong in words.
func (t *Theme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	p := t.Palette(v)
	switch n {
	case theme.ColorNameBackground:
		return p.Ground
	case theme.ColorNameButton, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground, ColourCard:
		return p.Card
	case theme.ColorNameDisabledButton, theme.ColorNameInputBackground, ColourSunk:
		return p.Sunk
	case ColourAside:
		return p.Aside
	case theme.ColorNameForeground, theme.ColorNameError, theme.ColorNameWarning:
		return p.Ink
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled, ColourSoft:
		return p.Soft
	case theme.ColorNameInputBorder, theme.ColorNameScrollBar, ColourEdge:
		return p.Edge
	case theme.ColorNameSeparator, theme.ColorNameScrollBarBackground:
		return p.Rule
	case theme.ColorNamePrimary, theme.ColorNameFocus, theme.ColorNameHyperlink, theme.ColorNameSuccess:
		return p.Hue
	case theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnSuccess:
		return p.OnHue
	case theme.ColorNameForegroundOnError, theme.ColorNameForegroundOnWarning:
		return p.Card
	case ColourDeep:
		return p.Deep
	case theme.ColorNameSelection, theme.ColorNamePressed, ColourTint:
		return p.Tint
	case theme.ColorNameHover, ColourLit:
		return p.Lit
	case theme.ColorNameShadow:
		return color.NRGBA{A: 0x22}
	}
	return p.Ink
}

// Font gives the typeface. Symbols and code keep Fyne's own.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Symbol, s.Monospace:
		return theme.DefaultTheme().Font(s)
	case s.Bold:
		return Bold
	case s.Italic:
		return Italic
	}
	return Regular
}

// Icon gives Fyne's line icons; there are few in Feltpage, and none alone.
func (t *Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size looks up a measure of Fyne's own widgets on our grid.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNamePadding:
		return XS
	case theme.SizeNameInnerPadding:
		return S
	case theme.SizeNameLineSpacing:
		return XS
	case theme.SizeNameText:
		return Text
	case theme.SizeNameCaptionText:
		return Caption
	case theme.SizeNameSubHeadingText:
		return Lead
	case theme.SizeNameHeadingText:
		return Heading
	case theme.SizeNameInlineIcon:
		return L
	case theme.SizeNameInputBorder:
		return Border
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return Radius
	case theme.SizeNameScrollBar:
		return M
	case theme.SizeNameScrollBarSmall, theme.SizeNameScrollBarRadius:
		return S
	case theme.SizeNameSeparatorThickness:
		return 1
	}
	return theme.DefaultTheme().Size(n)
}
