namespace Portwitness.PowerDelivery.Framing;

/// <summary>What the four K-codes after a preamble announce (R3.2v1.1, 5.6.1.2 and Table 5.3).</summary>
public enum OrderedSetKind
{
    /// <summary>A message to or from the port partner.</summary>
    Sop,

    /// <summary>A message to or from the near cable plug.</summary>
    SopPrime,

    /// <summary>A message to or from the far cable plug.</summary>
    SopDoublePrime,

    /// <summary>Debug accessories, near plug.</summary>
    SopPrimeDebug,

    /// <summary>Debug accessories, far plug.</summary>
    SopDoublePrimeDebug,

    /// <summary>Hard Reset: nothing follows.</summary>
    HardReset,

    /// <summary>Cable Reset: nothing follows.</summary>
    CableReset,
}

/// <summary>The ordered sets and how four received symbols are matched with them.</summary>
public static class OrderedSet
{
    /// <summary>K-codes in an ordered set.</summary>
    public const int Length = 4;

    // In the order of OrderedSetKind; the first five also in the order of SopKind.
    private static readonly SymbolKind[][] Sets =
    [
        [SymbolKind.Sync1, SymbolKind.Sync1, SymbolKind.Sync1, SymbolKind.Sync2],
        [SymbolKind.Sync1, SymbolKind.Sync1, SymbolKind.Sync3, SymbolKind.Sync3],
        [SymbolKind.Sync1, SymbolKind.Sync3, SymbolKind.Sync1, SymbolKind.Sync3],
        [SymbolKind.Sync1, SymbolKind.Rst2, SymbolKind.Rst2, SymbolKind.Sync3],
        [SymbolKind.Sync1, SymbolKind.Rst2, SymbolKind.Sync3, SymbolKind.Sync2],
        [SymbolKind.Rst1, SymbolKind.Rst1, SymbolKind.Rst1, SymbolKind.Rst2],
        [SymbolKind.Rst1, SymbolKind.Sync1, SymbolKind.Rst1, SymbolKind.Sync3],
    ];

    /// <summary>The four K-codes, first sent first.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The kind is none of the seven.</exception>
    public static ReadOnlySpan<SymbolKind> CodesOf(OrderedSetKind kind) => (uint)kind < (uint)Sets.Length
        ? Sets[(int)kind]
        : throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not an ordered set.");

    /// <summary>The ordered set in front of a message of an SOP kind.</summary>
    public static OrderedSetKind Of(SopKind sop) => (OrderedSetKind)sop;

    /// <summary>The SOP kind that an ordered set announces; null for a reset.</summary>
    public static SopKind? SopOf(OrderedSetKind kind) => kind <= OrderedSetKind.SopDoublePrimeDebug ? (SopKind)kind : null;

    /// <summary>
    /// The set that agrees with received symbols in at least three of four places (R3.2v1.1, Table 5.3: four have to be
    /// accepted, three may be); null when none does, or when two do equally well.
    /// </summary>
    /// <param name="symbols">The first four symbols after the preamble; fewer match nothing.</param>
    /// <param name="matching">How many places of the returned set agree; 0 without one.</param>
    public static OrderedSetKind? Match(ReadOnlySpan<SymbolKind> symbols, out int matching)
    {
        const int Enough = 3;
        int best = 0;
        OrderedSetKind? found = null;
        for (int i = 0; i < Sets.Length && symbols.Length >= Length; i++)
        {
            int agree = 0;
            for (int place = 0; place < Length; place++)
            {
                agree += symbols[place] == Sets[i][place] ? 1 : 0;
            }

            found = agree > best ? (OrderedSetKind)i : agree == best ? null : found;
            best = Math.Max(best, agree);
        }

        matching = found is null || best < Enough ? 0 : best;
        return matching == 0 ? null : found;
    }
}
