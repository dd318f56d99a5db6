package editors

// look is how a token is called by the two kinds of highlighter: a TextMate
// scope, without the language's own ending, and a type of Chroma's tokens.
type look struct{ scope, class string }

// The scopes are those that themes know (TextMate manual, "Naming
// Conventions"), the types those that Chroma has styles for.
var (
	blank     = look{"", "TextWhitespace"}
	comment   = look{"comment.line.number-sign", "CommentSingle"}
	keyword   = look{"keyword.declaration", "KeywordDeclaration"}
	joining   = look{"keyword.other", "Keyword"}
	kindWord  = look{"entity.name.type", "NameClass"}
	declared  = look{"entity.name.function", "NameFunction"}
	setting   = look{"support.type.property-name", "NameAttribute"}
	choice    = look{"constant.language", "KeywordConstant"}
	known     = look{"support.constant", "NameConstant"}
	colour    = look{"constant.other.colour", "NameConstant"}
	number    = look{"constant.numeric", "LiteralNumber"}
	unit      = look{"keyword.other.unit", "KeywordType"}
	date      = look{"constant.other.date", "LiteralDate"}
	text      = look{"string.quoted.double", "LiteralStringDouble"}
	escape    = look{"constant.character.escape", "LiteralStringEscape"}
	arrow     = look{"keyword.operator.arrow", "Operator"}
	operator  = look{"keyword.operator", "Operator"}
	brace     = look{"punctuation.section.block", "Punctuation"}
	separator = look{"punctuation.separator", "Punctuation"}
	ending    = look{"punctuation.terminator", "Punctuation"}
	device    = look{"variable.other.object", "NameVariable"}
	point     = look{"punctuation.accessor", "Punctuation"}
	terminal  = look{"variable.other.property", "NameProperty"}
	illegal   = look{"invalid.illegal", "Error"}
)
