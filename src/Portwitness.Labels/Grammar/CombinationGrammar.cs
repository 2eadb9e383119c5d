using System.Collections.Immutable;
using Pidgin;
using static Pidgin.Parser;
using static Portwitness.Labels.Tokens;
using P = Pidgin.Parser<Portwitness.Labels.Token>;

namespace Portwitness.Labels;

/// <summary>Ratings for several ports at once, and totals.</summary>
internal static class CombinationGrammar
{
    /// <summary>The scope of a total that says no more.</summary>
    public const string ProductScope = "product";

    private static readonly Parser<Token, Token> Plus = Is(TokenKind.Plus);

    private static readonly Parser<Token, string> Port = PortGrammar.Port.Or(PortGrammar.Pad);

    // "C1", "(C2+A)".
    private static readonly Parser<Token, ImmutableArray<string>> Group = OneOf(
        Port.Select(static ImmutableArray<string> (port) => [port]),
        Try(Map(
            static ImmutableArray<string> (first, rest) => [first, .. rest],
            Open.Then(Port), Try(Plus.Then(Port)).AtLeastOne()).Before(Close)));

    private static readonly Parser<Token, ImmutableArray<ImmutableArray<string>>> Set = Map(
        static ImmutableArray<ImmutableArray<string>> (first, rest) => [first, .. rest],
        Group, Try(Plus.Then(Group)).AtLeastOne());

    // "C1+C2/C1+A", "C1+C2 or C1+A".
    private static readonly Parser<Token, ImmutableArray<ImmutableArray<ImmutableArray<string>>>> Sets = Map(
        static ImmutableArray<ImmutableArray<ImmutableArray<string>>> (first, rest) => [first, .. rest],
        Set, P.Token(static t => t.Kind is TokenKind.Slash or TokenKind.Comma || t.Term == Term.Or).Then(Set).AtMost(5));

    // Words between the ports and their rating, or behind it, that say the rating is shared.
    private static readonly Parser<Token, bool> SharedWords = P.Token(
        static t => t.Term is Term.Total or Term.Maximum or Term.MaximumOutput or Term.Shared).AtMost(3).Select(static words => words.Length > 0);

    private static readonly Parser<Token, bool> Shared =
        Try(Open.Then(SharedWords.Where(static isSaid => isSaid)).Before(Close)).Or(SharedWords);

    private static readonly Parser<Token, Token> PlainWatts = Watts.Before(Maximum.IsPresent());

    private static readonly Parser<Token, SharePiece> PowerShare =
        PlainWatts.Select(static watts => new SharePiece(null, watts, []));

    private static readonly Parser<Token, SharePiece> ModeShare =
        Try(ModeGrammar.Mode).Select(static mode => new SharePiece(null, null, [(mode, null)]));

    // "45W+20W", "45W+5V⎓2.4A".
    private static readonly Parser<Token, ImmutableArray<SharePiece>> Split = Map(
        static ImmutableArray<SharePiece> (first, rest) => [first, .. rest],
        ModeShare.Or(PowerShare), Try(Plus.Then(ModeShare.Or(PowerShare))).AtLeastOne());

    private static readonly Parser<Token, Token> ListSign = P.Token(
        static t => t.Kind is TokenKind.Comma or TokenKind.Slash || t.Term == Term.Or);

    // "5V⎓3A", "PPS 3.3-11V⎓3A".
    private static readonly Parser<Token, (Piece, string?)> Rating = Map(
        static (Piece, string?) (word, rating) => (rating, word?.Word),
        P.Token(static t => t.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol).Before(Is(TokenKind.Colon).IsPresent()).OrNull(),
        ModeGrammar.Range.Where(static range => range.IsClear).AsPiece().Or(ModeGrammar.Mode.AsPiece()));

    // "C1 20V⎓2.25A", "C1: 45W", "C1(45W)".
    private static readonly Parser<Token, SharePiece> NamedShare = Map(
        static (port, share) => share with { Port = port },
        Port.Before(Mark.IsPresent()),
        OneOf(
            Try(Open.Then(PlainWatts).Before(Close)).Select(static watts => new SharePiece(null, watts, [])),
            PowerShare,
            Map(
                static (first, rest) => new SharePiece(null, null, [first, .. rest]),
                Try(Rating), Try(ListSign.IsPresent().Then(Rating)).Repeated())));

    private static readonly Parser<Token, ImmutableArray<SharePiece>> NamedSplit = Map(
        static ImmutableArray<SharePiece> (first, rest) => [first, .. rest],
        NamedShare,
        Try(P.Token(static t => t.Kind is TokenKind.Comma or TokenKind.Slash or TokenKind.Plus or TokenKind.Semicolon).IsPresent()
            .Then(NamedShare)).AtLeastOne());

    // "(Total 65W)", "= 65W".
    private static readonly Parser<Token, Token?> TotalBehind = OneOf(
        Open.Then(Shared).Then(Is(TokenKind.Colon).IsPresent()).Then(Watts).Before(Shared).Before(Close),
        Is(TokenKind.Equals).Then(Watts).Before(Shared)).OrNull();

    private static readonly Parser<Token, bool> Each = Try(Open.Then(Is(Term.Each)).Before(Close)).Or(Is(Term.Each)).IsPresent();

    private static readonly Parser<Token, CombinationRating> EachRating = Is(Term.Each).Then(OneOf(
        Try(ModeGrammar.Mode).Select(static mode => new CombinationRating { Pool = mode, IsForEach = true }),
        Watts.Select(static watts => new CombinationRating { Shares = [new SharePiece(null, watts, [])], IsForEach = true })));

    private static readonly Parser<Token, CombinationRating> AnyRating = OneOf(
        Try(EachRating),
        Map(
            static (shares, total) => new CombinationRating { Shares = shares, Total = total },
            Try(Split).Or(Try(NamedSplit)), TotalBehind),
        Try(Map(
            static (total, shares) => new CombinationRating { Shares = shares, Total = total },
            Watts.Before(Shared), Open.Then(Split.Or(NamedSplit)).Before(Close))),
        Map(
            static (mode, isForEach, isShared) => new CombinationRating
            {
                Pool = mode, IsForEach = isForEach, IsSaidToBeShared = isShared || mode.IsMaximum,
            },
            Try(ModeGrammar.Mode), Each, Shared),
        Try(Watts.Before(Is(Term.Each))).Select(static watts => new CombinationRating
        {
            Shares = [new SharePiece(null, watts, [])], IsForEach = true,
        }),
        Watts.Before(Shared).Select(static watts => new CombinationRating { Total = watts }));

    private static readonly Parser<Token, bool> HeaderEnd =
        Map(static (before, behind) => before || behind, Is(Term.Output).IsPresent().Then(Shared).Before(Mark.IsPresent()), Shared);

    private static readonly Parser<Token, CombinationPiece> PortsFirst = Map(
        static (sets, isShared, rating) => new CombinationPiece(
            sets, rating?.Pool is null || isShared || rating.IsForEach || rating.IsSaidToBeShared ? rating : null),
        Sets, HeaderEnd, Try(Open.Then(AnyRating).Before(Close)).Or(AnyRating).OrNull());

    // "C1 45W + A 12W": the plus says that it is at once.
    private static readonly Parser<Token, CombinationPiece> ValuesWithPorts = Map(
        static (first, rest, total) =>
        {
            ImmutableArray<SharePiece> shares = [first, .. rest];
            return new CombinationPiece(
                [[.. shares.Select(static ImmutableArray<string> (share) => [share.Port!])]],
                new CombinationRating { Shares = shares, Total = total });
        },
        NamedShare, Try(Plus.Then(NamedShare)).AtLeastOne(), TotalBehind);

    /// <summary>
    /// "C1+C2: 45W+20W", "C1+C2 Total: 65W", "C1+C2: C1 20V⎓2.25A, C2 5V⎓3A". Two or more ports always make a combination,
    /// so that its rating is never taken for that of the last port. One mode for all of them is a pool only when the label
    /// says so: without "total" it may be meant for each.
    /// </summary>
    public static readonly Parser<Token, CombinationPiece> Combination = Try(PortsFirst).Or(ValuesWithPorts);

    /// <summary>"Total (C1+C2): 65W".</summary>
    public static readonly Parser<Token, CombinationPiece> TotalOfPorts = Map(
        static (_, ports, watts) => new CombinationPiece([ports], new CombinationRating { Total = watts }),
        Is(Term.Total),
        Try(Open.Then(Set).Before(Close)).Or(Set).Before(Mark.IsPresent()).Before(Shared),
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
}
