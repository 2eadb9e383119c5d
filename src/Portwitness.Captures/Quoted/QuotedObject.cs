using Portwitness.Captures.Offers;

namespace Portwitness.Captures.Quoted;

/// <summary>One object of a quoted text.</summary>
/// <param name="Coded">Its word, as far as it can be read.</param>
/// <param name="Index">The number beside it; null when it has none.</param>
/// <param name="CountsFromZero">Whether that number surely counts from 0, as the kernel's does.</param>
/// <param name="Section">Objects of one pair of braces, one run of bytes, or one stretch of lines have the same.</param>
/// <param name="Line">Its line.</param>
internal readonly record struct QuotedObject(CodedOffer Coded, int? Index, bool CountsFromZero, int Section, long Line);
