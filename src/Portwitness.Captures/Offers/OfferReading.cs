using System.Collections.Frozen;
using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Captures.Offers;

/// <summary>Reads offers one behind the other.</summary>
internal sealed class OfferReading
{
    private const string AnyOffer = "an offer such as 9V 3A, PPS 5-21V 3A, SPR AVS 3A/3A, EPR AVS 15-28V 140W, variable, battery or 0x0002D12C";
    private const string VoltsExpected = "a range such as 5-21V";
    private const string AmperesExpected = "a current such as 3.25A";
    private const string WattsExpected = "a power such as 60W";
    private const string AvsExpected = "currents such as 3A/3.25A, or 3A for 9 to 15 V alone";

    // Words in front of an offer that say its kind, or nothing. "EPR" alone is a flag.
    private static readonly FrozenSet<string> Kinds = FrozenSet.ToFrozenSet(
        ["PPS", "APDO", "AVS", "SPR", "variable", "battery", "fixed", "PDO", "programmable"], StringComparer.OrdinalIgnoreCase);

    private const int MaxQuoted = 80;
    private const int LowestOfPps = 5_000;
    private const int LowestOfEprAvs = 15_000;
    private const int HighestOfSprAvs15 = 15_000;

    private readonly List<OfferToken> _tokens;
    private int _at;

    public OfferReading(string text)
    {
        Text = text.Length > MaxQuoted ? text[..MaxQuoted] + "..." : text;
        _tokens = OfferToken.Of(text);
    }

    /// <summary>The text, for a message about it.</summary>
    public string Text { get; }

    /// <summary>Whether nothing is left.</summary>
    public bool AtEnd => _at == _tokens.Count;

    /// <summary>The next piece, quoted.</summary>
    public string Found => $"\"{_tokens[_at].Text}\"";

    private OfferTokenKind? Kind => _at < _tokens.Count ? _tokens[_at].Kind : null;

    /// <summary>Reads the next offer.</summary>
    /// <exception cref="OfferFaultException">There is none.</exception>
    public Offer Next()
    {
        TakeCount();
        HashSet<string> said = new(StringComparer.OrdinalIgnoreCase);
        while (IsKind(_at) || Is("EPR", _at))
        {
            bool needsAvs = Is("SPR", _at) || Is("EPR", _at);
            said.Add(_tokens[_at++].Text);
            if (needsAvs && !Is("AVS", _at))
            {
                throw Missing("\"AVS\" after SPR or EPR");
            }

            TakeCount();
        }

        return said.Contains("AVS") ? Avs(said.Contains("SPR"), said.Contains("EPR"))
            : said.Overlaps(["PPS", "APDO", "programmable"]) ? Ranged(PowerObjectKind.Pps)
            : said.Contains("variable") ? Ranged(PowerObjectKind.Variable)
            : said.Contains("battery") ? Ranged(PowerObjectKind.Battery)
            : FixedOrRange();
    }

    // "1:", "[2]", "#3", "PDO4 -" and the like only count.
    private void TakeCount()
    {
        int start = _at;
        while (Kind == OfferTokenKind.Mark)
        {
            _at++;
        }

        if (Kind == OfferTokenKind.Number && !(KindAt(_at + 1) == OfferTokenKind.Range && KindAt(_at + 2) == OfferTokenKind.Volts))
        {
            _at++;
            while (Kind is OfferTokenKind.Mark or OfferTokenKind.Range)
            {
                _at++;
            }
        }
        else if (_at > start && Kind is null)
        {
            _at = start;
        }
    }

    private Offer FixedOrRange()
    {
        if (Kind is not (OfferTokenKind.Volts or OfferTokenKind.Number))
        {
            throw Missing(AnyOffer);
        }

        if (TryRange() is not { } range)
        {
            int volts = Expect(OfferTokenKind.Volts, AnyOffer).Thousandths!.Value;
            OfferToken amperes = Expect(OfferTokenKind.Amperes, AmperesExpected);
            Voltage voltage = Voltage.FromMillivolts(volts);
            CheckPower(volts, amperes.Thousandths!.Value);
            return Finish(new Offer(
                Text, PowerObjectKind.Fixed, voltage, voltage, Current.FromMilliamperes(amperes.Thousandths.Value), default, default)
            {
                CurrentDecimals = amperes.Decimals,
            });
        }

        // Nothing says what it is a range of: PPS begins at 5 V or below, AVS of EPR at 15 V and states watts.
        if (Kind == OfferTokenKind.Amperes && range.Minimum <= LowestOfPps)
        {
            return Ranged(PowerObjectKind.Pps, range);
        }

        if (Kind == OfferTokenKind.Watts && range.Minimum == LowestOfEprAvs)
        {
            return Ranged(PowerObjectKind.EprAvs, range);
        }

        throw new OfferFaultException($"\"{Text}\" has a range; say in front of it whether it is PPS, SPR AVS, EPR AVS, variable or battery");
    }

    private Offer Ranged(PowerObjectKind kind, (int Minimum, int Maximum)? read = null)
    {
        (int minimum, int maximum) = read ?? TryRange() ?? throw Missing(VoltsExpected);
        bool byPower = kind is PowerObjectKind.Battery or PowerObjectKind.EprAvs;
        OfferToken amount = byPower ? Expect(OfferTokenKind.Watts, WattsExpected) : Expect(OfferTokenKind.Amperes, AmperesExpected);
        return Finish(new Offer(
            Text, kind, Voltage.FromMillivolts(minimum), Voltage.FromMillivolts(maximum),
            byPower ? default : Current.FromMilliamperes(amount.Thousandths!.Value), default,
            byPower ? Power.FromMilliwatts(amount.Thousandths!.Value) : default)
        {
            CurrentDecimals = byPower ? null : amount.Decimals,
        });
    }

    private Offer Avs(bool isSpr, bool isEpr)
    {
        if (TryRange() is not { } range)
        {
            return isEpr ? throw Missing(VoltsExpected) : SprAvs(HighestOfSprAvs15, isPairExpected: true);
        }

        return isEpr || (!isSpr && (Kind == OfferTokenKind.Watts || range.Minimum == LowestOfEprAvs))
            ? Ranged(PowerObjectKind.EprAvs, range)
            : SprAvs(range.Maximum, isPairExpected: false);
    }

    // One current and a range up to 20 V: it holds in all of it. A second range may follow with its own current.
    private Offer SprAvs(int highest, bool isPairExpected)
    {
        OfferToken first = Expect(OfferTokenKind.Amperes, isPairExpected ? AvsExpected : AmperesExpected);
        int start = _at;
        bool hasRange = TryRange() is not null;
        if (hasRange && Kind != OfferTokenKind.Amperes)
        {
            _at = start;
        }

        OfferToken? second = Kind == OfferTokenKind.Amperes ? _tokens[_at++] : null;
        int to20V = second is { } other ? Whole(other).Thousandths!.Value : highest > HighestOfSprAvs15 ? first.Thousandths!.Value : 0;
        return Finish(new Offer(
            Text, PowerObjectKind.SprAvs, default, default, Current.FromMilliamperes(first.Thousandths!.Value), Current.FromMilliamperes(to20V), default)
        {
            CurrentDecimals = Math.Max(first.Decimals, second?.Decimals ?? 0),
        });
    }

    // What follows up to the next offer: flags, with codes behind some of them.
    private Offer Finish(Offer offer)
    {
        ImmutableArray<string>.Builder rest = ImmutableArray.CreateBuilder<string>();
        while (Kind is OfferTokenKind.Word or OfferTokenKind.Number or OfferTokenKind.Mark or OfferTokenKind.Watts && !BeginsOffer())
        {
            OfferToken token = _tokens[_at++];
            if (token.Kind is OfferTokenKind.Word or OfferTokenKind.Number && !token.Text.Equals("max", StringComparison.OrdinalIgnoreCase))
            {
                rest.Add(token.Text);
            }
        }

        return offer with { Rest = rest.ToImmutable() };
    }

    private bool BeginsOffer()
    {
        // "epr" is a flag of a fixed offer, and "EPR AVS" another offer.
        bool isKind = IsKind(_at) || (Is("EPR", _at) && Is("AVS", _at + 1));

        // "2: 9V 3A", "2) 9V", "3.3-11V".
        bool isCount = Kind == OfferTokenKind.Number
            && (KindAt(_at + 1) is OfferTokenKind.Range || (KindAt(_at + 1) == OfferTokenKind.Mark && KindAt(_at + 2) is not null));
        return isKind || isCount || (Kind == OfferTokenKind.Mark && KindAt(_at + 1) == OfferTokenKind.Number);
    }

    // Watts that are written beside volts and amperes have to be their product, as far as they are told.
    private void CheckPower(int volts, int amperes)
    {
        int next = _at;
        while (KindAt(next) == OfferTokenKind.Mark)
        {
            next++;
        }

        if (KindAt(next) == OfferTokenKind.Watts && _tokens[next] is { Thousandths: { } watts })
        {
            long product = (long)volts * amperes / 1_000;
            if (Math.Abs(product - watts) > Math.Max(1_000, product / 50))
            {
                throw new OfferFaultException($"\"{Text}\" says {_tokens[next].Text}, but {product / 1000m:0.##} W is the product of volts and amperes");
            }
        }
    }

    private (int Minimum, int Maximum)? TryRange()
    {
        bool isRange = Kind is OfferTokenKind.Volts or OfferTokenKind.Number && KindAt(_at + 1) == OfferTokenKind.Range
            && KindAt(_at + 2) == OfferTokenKind.Volts;
        if (!isRange)
        {
            return null;
        }

        (OfferToken low, OfferToken high) = (_tokens[_at], Whole(_tokens[_at + 2]));
        _at += 3;
        if (low.Kind == OfferTokenKind.Number)
        {
            bool isThousandth = high.Text.EndsWith("mV", StringComparison.OrdinalIgnoreCase);
            low = OfferToken.Of(low.Text + (isThousandth ? "mV" : "V"))[0];
        }

        return (Whole(low).Thousandths!.Value, high.Thousandths!.Value);
    }

    private OfferToken Expect(OfferTokenKind kind, string expected)
    {
        // "5V: 3A", "5V - 3A", "5V x 3A".
        while (kind != OfferTokenKind.Volts && (Kind is OfferTokenKind.Mark or OfferTokenKind.Range || Is("x", _at)))
        {
            _at++;
        }

        return Kind == kind ? Whole(_tokens[_at++]) : throw Missing(expected);
    }

    private OfferToken Whole(OfferToken token) => token.Thousandths is not null ? token
        : throw new OfferFaultException($"\"{token.Text}\" in \"{Text}\" is finer than a thousandth, or too large");

    private bool IsKind(int at) => KindAt(at) == OfferTokenKind.Word && Kinds.Contains(_tokens[at].Text);

    private bool Is(string word, int at) => KindAt(at) == OfferTokenKind.Word && _tokens[at].Text.Equals(word, StringComparison.OrdinalIgnoreCase);

    private OfferTokenKind? KindAt(int at) => at < _tokens.Count ? _tokens[at].Kind : null;

    private OfferFaultException Missing(string expected) => new(AtEnd
        ? $"\"{Text}\" ends where {expected} was expected"
        : $"{Found} stands where {expected} was expected, in \"{Text}\"");
}
