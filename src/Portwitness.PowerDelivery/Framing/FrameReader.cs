namespace Portwitness.PowerDelivery.Framing;

/// <summary>Reads the bits of one frame: preamble, ordered set, symbols, bytes. Whatever comes, it ends.</summary>
internal sealed class FrameReader
{
    /// <summary>Most bytes of a message with its CRC; the longest of the standard has 264 and a CRC.</summary>
    public const int MaxBytes = 1024 + MessageCrc.Length;

    private const int SymbolBits = 5;
    private const int SetBits = SymbolBits * OrderedSet.Length;
    private const uint SetMask = (1u << SetBits) - 1;

    // Bits of the preamble that have to stand in front of an ordered set, so that data is not taken for one.
    private const int LeadBits = 6;
    private const uint Lead = 0b010101;

    private readonly byte[] _bytes = new byte[MaxBytes];
    private readonly SymbolKind[] _symbols = new SymbolKind[OrderedSet.Length];
    private ulong _last;
    private int _nibbles;
    private int _symbol;
    private int _symbolBits;

    /// <summary>Bits taken.</summary>
    public int Bits { get; private set; }

    /// <summary>The first bit of the ordered set, or where it should be; -1 while bits alternate.</summary>
    public int SetStart { get; private set; }

    /// <summary>The ordered set once it is found.</summary>
    public OrderedSetKind? Set { get; private set; }

    /// <summary>Symbols of the set that are right.</summary>
    public int Matching { get; private set; }

    /// <summary>First bit of the symbol that is being read, or that was found invalid.</summary>
    public int SymbolStart => Bits - _symbolBits;

    /// <summary>The four symbols at <see cref="SetStart"/>, when there are four.</summary>
    public ReadOnlySpan<SymbolKind> Symbols => SetStart >= 0 && Bits >= SetStart + SetBits ? _symbols : [];

    /// <summary>The whole bytes.</summary>
    public ReadOnlySpan<byte> Bytes => _bytes.AsSpan(0, _nibbles / 2);

    /// <summary>Begins a frame.</summary>
    public void Begin()
    {
        (Bits, SetStart, Set, Matching) = (0, -1, null, 0);
        (_last, _nibbles, _symbol, _symbolBits) = (0, 0, 0, 0);
    }

    /// <summary>Takes the next bit; true when the frame has ended, be it whole (<see cref="FrameBreak.None"/>) or not.</summary>
    public bool OnBit(int bit, out FrameBreak why)
    {
        why = FrameBreak.None;
        _last = (_last << 1) | (uint)bit;
        Bits++;
        if (Set is null)
        {
            return Seek(bit);
        }

        _symbol |= bit << _symbolBits;
        _symbolBits++;
        return _symbolBits == SymbolBits && TakeSymbol(out why);
    }

    // A set is looked for at every bit, so that a disturbed preamble, or a disturbed first symbol, does not hide it.
    // No set with three right symbols shows earlier in the bits of a preamble and another set; a test goes through them.
    private bool Seek(int bit)
    {
        if (SetStart < 0 && Bits > 1 && bit == (int)((_last >> 1) & 1))
        {
            // A preamble ends with 1. A set that begins with 0 keeps alternating for one bit.
            SetStart = bit == 0 ? Bits - 2 : Bits - 1;
        }

        if (SetStart < 0 || Bits < SetBits)
        {
            return false;
        }

        bool isFirst = Bits == SetStart + SetBits;
        bool isLed = ((_last >> SetBits) & ((1u << LeadBits) - 1)) == Lead;
        if (!isFirst && !isLed)
        {
            return false;
        }

        Span<SymbolKind> symbols = stackalloc SymbolKind[OrderedSet.Length];
        Split((uint)_last & SetMask, symbols);
        int matching = 0;
        Set = isLed ? OrderedSet.Match(symbols, out matching) : null;
        if (isFirst || Set is not null)
        {
            symbols.CopyTo(_symbols);
        }

        if (Set is null)
        {
            return false;
        }

        (SetStart, Matching) = (Bits - SetBits, matching);
        return OrderedSet.SopOf(Set.Value) is null;
    }

    // The oldest bit is the highest, and bit 0 of its symbol.
    private static void Split(uint bits, Span<SymbolKind> symbols)
    {
        for (int place = 0; place < OrderedSet.Length; place++)
        {
            int code = 0;
            for (int bit = 0; bit < SymbolBits; bit++)
            {
                code |= (int)((bits >> (SetBits - 1 - (place * SymbolBits) - bit)) & 1) << bit;
            }

            symbols[place] = SymbolCode.Decode(code).Kind;
        }
    }

    private bool TakeSymbol(out FrameBreak why)
    {
        Symbol symbol = SymbolCode.Decode(_symbol);
        why = symbol.Kind switch
        {
            SymbolKind.Data when _nibbles < 2 * MaxBytes => FrameBreak.None,
            SymbolKind.Data => FrameBreak.TooLong,
            SymbolKind.Eop when _nibbles % 2 == 0 && _nibbles / 2 >= 2 + MessageCrc.Length => FrameBreak.None,
            SymbolKind.Eop => FrameBreak.EndedTooEarly,
            _ => FrameBreak.SymbolInvalid,
        };
        if (why != FrameBreak.None)
        {
            return true;
        }

        (_symbol, _symbolBits) = (0, 0);
        if (symbol.Kind == SymbolKind.Eop)
        {
            return true;
        }

        // The low nibble comes first.
        ref byte target = ref _bytes[_nibbles / 2];
        target = (byte)(_nibbles % 2 == 0 ? symbol.Nibble : target | (symbol.Nibble << 4));
        _nibbles++;
        return false;
    }
}
