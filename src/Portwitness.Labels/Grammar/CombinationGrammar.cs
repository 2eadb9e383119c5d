using System.Collections.Immutable;
using Pidgin;
using static Pidgin.Parser;
using static Portwitness.Labels.Tokens;
using P = Pidgin.Parser<Portwitness.Labels.Token>;
using Share = (string? Port, Portwitness.Labels.Token? Watts, System.Collections.Immutable.ImmutableArray<Portwitness.Labels.ModePiece> Modes);

namespace Portwitness.Labels;

/// <summary>Ratings for several ports at once, and totals.</summary>
internal static class CombinationGrammar
{
    private static readonly Parser<Token, Token> Plus = Is(TokenKind.Plus);

    private static readonly Parser<Token, ImmutableArray<string>> Ports = Map(
        static ImmutableArray<string> (first, rest) => [first, .. rest],
        PortGrammar.Port, Try(Plus.Then(PortGrammar.Port)).AtLeastOnce());

    // Words between the ports and their rating, or behind it, that say the rating is shared.
    private static readonly Parser<Token, bool> Shared = P.Token(
        static t => t.Term is Term.Total or Term.Maximum or Term.MaximumOutput).AtMost(3).Select(static words => words.Length > 0);

    private static readonly Parser<Token, Token> PlainWatts = Watts.Before(Maximum.IsPresent());

    private static readonly Parser<Token, Share> PowerShare =
        PlainWatts.Select(static Share (watts) => (null, watts, []));

    private static readonly Parser<Token, Share> ModeShare =
        Try(ModeGrammar.Mode).Select(static Share (mode) => (null, null, [mode]));

    // "45W+20W", "45W+5V⎓2.4A".
    private static readonly Parser<Token, ImmutableArray<Share>> Split = Map(
        static ImmutableArray<Share> (first, rest) => [first, .. rest],
        ModeShare.Or(PowerShare), Try(Plus.Then(ModeShare.Or(PowerShare))).AtLeastOnce());

    private static readonly Parser<Token, Token> ListSign = P.Token(
        static t => t.Kind is TokenKind.Comma or TokenKind.Slash || t.Term == Term.Or);

    // "C1 20V⎓2.25A", "C1: 45W", "C1(45W)".
    private static readonly Parser<Token, Share> NamedShare = Map(
        static (port, share) => share with { Port = port },
        PortGrammar.Port.Before(Mark.IsPresent()),
        OneOf(
            Try(Open.Then(PlainWatts).Before(Close)).Select(static Share (watts) => (null, watts, [])),
            PowerShare,
            Map(
                static Share (first, rest) => (null, null, [first, .. rest]),
                Try(ModeGrammar.Mode), Try(ListSign.IsPresent().Then(ModeGrammar.Mode)).Many())));

    private static readonly Parser<Token, ImmutableArray<Share>> NamedSplit = Map(
        static ImmutableArray<Share> (first, rest) => [first, .. rest],
        NamedShare,
        Try(P.Token(static t => t.Kind is TokenKind.Comma or TokenKind.Slash or TokenKind.Plus or TokenKind.Semicolon).IsPresent()
            .Then(NamedShare)).AtLeastOnce());

    private static readonly Parser<Token, Token?> TotalBehind =
        Open.Then(Shared).Then(Is(TokenKind.Colon).IsPresent()).Then(Watts).Before(Shared).Before(Close).OrNull();

    private static readonly Parser<Token, CombinationRating> Rating = OneOf(
        Map(
            static (shares, total) => new CombinationRating { Shares = shares, Total = total },
            Try(Split).Or(Try(NamedSplit)), TotalBehind),
        Map(
            static (mode, isShared) => new CombinationRating { Pool = mode, IsSaidToBeShared = isShared || mode.IsMaximum },
            Try(ModeGrammar.Mode), Shared),
        Watts.Before(Shared).Select(static watts => new CombinationRating { Total = watts }));

    private static readonly Parser<Token, bool> HeaderEnd =
        Map(static (before, behind) => before || behind, Is(Term.Output).IsPresent().Then(Shared).Before(Mark.IsPresent()), Shared);

    /// <summary>
    /// "C1+C2: 45W+20W", "C1+C2 Total: 65W", "C1+C2: C1 20V⎓2.25A, C2 5V⎓3A". Two or more ports always make a combination,
    /// so that its rating is never taken for that of the last port. One mode for all of them is a pool only when the label
    /// says so: without "total" it may be meant for each.
    /// </summary>
    public static readonly Parser<Token, CombinationPiece> Combination = Map(
        static (ports, isShared, rating) => new CombinationPiece(
            ports, rating?.Pool is null || isShared || rating.IsSaidToBeShared ? rating : null),
        Ports, HeaderEnd, Try(Open.Then(Rating).Before(Close)).Or(Rating).OrNull());

    /// <summary>"Total (C1+C2): 65W".</summary>
    public static readonly Parser<Token, CombinationPiece> TotalOfPorts = Map(
        static (_, ports, watts) => new CombinationPiece(ports, new CombinationRating { Total = watts }),
        Is(Term.Total),
        Try(Open.Then(Ports).Before(Close)).Or(Ports).Before(Mark.IsPresent()).Before(Shared),
        Watts.Before(Shared));

    /// <summary>"Total 65W", "65W total", "Max output 65W".</summary>
    public static readonly Parser<Token, TotalPiece> Total = OneOf(
        Try(Map(
            static (word, watts) => new TotalPiece(watts, word.Term == Term.Total ? ProductScope : word.Word),
            P.Token(static t => t.Term is Term.Total or Term.MaximumOutput).Before(Mark.IsPresent()).Before(Shared),
            Watts.Before(Shared))),
        Map(
            static (watts, word) => new TotalPiece(watts, ProductScope),
            PlainWatts, Is(Term.Total).NotBefore(Mark.IsPresent().Then(Watts))));

    /// <summary>The scope of a total that says no more.</summary>
    public const string ProductScope = "product";}
