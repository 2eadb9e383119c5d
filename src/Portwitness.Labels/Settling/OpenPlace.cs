using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>A place of a label that a person can settle: it is unread, can be read in several ways, or was read by a guess.</summary>
/// <param name="At">Where it begins.</param>
/// <param name="Text">The printed words.</param>
/// <param name="Readings">Ways to read it, likeliest first; each is read where it is entered. May be empty: then only the print tells.</param>
/// <param name="MayRate">It could rate something, so it keeps a verdict open.</param>
public sealed record OpenPlace(Place At, string Text, ImmutableArray<LabelCorrection> Readings, bool MayRate);
