using System.ComponentModel;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Runtime.CompilerServices;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Phrases;

/// <summary>
/// What a rule says: words, which stand beside the rule, and the values between them, which keep their types and units.
/// An interpolated string becomes one wherever a phrase is expected; <see cref="PhraseText"/> makes English of it.
/// </summary>
/// <remarks>
/// Immutable once it is made; safe between threads. Two are equal when words and values are. A conditional or switch expression of
/// interpolated strings alone is a string, which has lost its values: begin one of its branches with <see cref="Of(Phrase)"/>.
/// </remarks>
[InterpolatedStringHandler]
public sealed class Phrase : IEquatable<Phrase>
{
    private object[] _parts;
    private int _count;

    /// <summary>Begins one; for the compiler.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public Phrase(int literalLength, int formattedCount)
    {
        _ = literalLength;
        _parts = new object[(2 * formattedCount) + 1];
    }

    private Phrase(params object[] parts) => (_parts, _count) = (parts, parts.Length);

    /// <summary>Says nothing.</summary>
    public static Phrase Empty { get; } = new([]);

    /// <summary>Whether it says nothing.</summary>
    public bool IsEmpty => _count == 0;

    /// <summary>Its words, with the number of each value in its place, for example "{0} is more than a connector carries.".</summary>
    public string Template
    {
        get
        {
            int values = 0;
            return string.Concat(Parts.ToArray().Select(part => part as string ?? string.Create(CultureInfo.InvariantCulture, $"{{{values++}}}")));
        }
    }

    /// <summary>
    /// Its values in order, each of the type that a hole of it can take: units, kinds, <see cref="Name"/>, <see cref="int"/>,
    /// <see cref="long"/>, <see cref="Duration"/>, <see cref="Quantity"/>, <see cref="HexNumber"/>, and phrases.
    /// </summary>
    public IEnumerable<object> Values => _parts.Take(_count).Where(static part => part is not string);

    /// <summary>Words (<see cref="string"/>) and values in order.</summary>
    internal ReadOnlySpan<object> Parts => _parts.AsSpan(0, _count);

    /// <summary>Words alone: meant for literals.</summary>
    [return: NotNullIfNotNull(nameof(words))]
    public static implicit operator Phrase?(string? words) => words is null ? null : words.Length == 0 ? Empty : new Phrase([words]);

    /// <summary>One behind the other.</summary>
    public static Phrase operator +(Phrase left, Phrase right) => right.IsEmpty ? left : left.IsEmpty ? right : Join("", [left, right]);

    /// <summary>Whether words and values are the same.</summary>
    public static bool operator ==(Phrase? left, Phrase? right) => left is null ? right is null : left.Equals(right);

    /// <summary>Whether words or values differ.</summary>
    public static bool operator !=(Phrase? left, Phrase? right) => !(left == right);

    /// <summary>The phrase itself: makes one of an interpolated string where the compiler would make a string.</summary>
    public static Phrase Of(Phrase phrase) => phrase;

    /// <summary>Several, with the same words between them.</summary>
    public static Phrase Join(string between, IEnumerable<Phrase> phrases)
    {
        Phrase joined = new(0, 0);
        foreach (Phrase phrase in phrases)
        {
            if (joined._count > 0 && between.Length > 0)
            {
                joined.Append(between);
            }

            joined.AppendParts(phrase);
        }

        return joined;
    }

    /// <summary>Names, with the same words between them.</summary>
    public static Phrase JoinNames(string between, IEnumerable<string> names) => Join(between, names.Select(static name => Of($"{name}")));

    /// <summary>Adds words.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendLiteral(string words)
    {
        // Strings that are added to each other make one phrase, and where one ends is of no account.
        if (_count > 0 && _parts[_count - 1] is string before)
        {
            _parts[_count - 1] = before + words;
        }
        else
        {
            Append(words);
        }
    }

    /// <summary>Adds what is said as it is: a port, a file, printed words.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(string? name)
    {
        if (!string.IsNullOrEmpty(name))
        {
            Append(new Name(name));
        }
    }

    /// <summary>Adds a phrase.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(Phrase? phrase)
    {
        if (phrase is { IsEmpty: false })
        {
            Append(phrase);
        }
    }

    /// <summary>Adds what says itself.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted<T>(T value)
        where T : IPhrased => AppendFormatted(value.ToPhrase());

    /// <summary>Adds an offered object, for example "fixed 9 V 3 A".</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(OfferedObject offered) => AppendFormatted(offered.ToPhrase());

    /// <summary>Adds a number without a unit.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(int value) => Append(value);

    /// <inheritdoc cref="AppendFormatted(int)"/>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(int? value) => Append(value);

    /// <inheritdoc cref="AppendFormatted(int)"/>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(long value) => Append(value);

    /// <summary>Adds a number as a word of bits; the format is "X" and the number of digits.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(uint value, string format) =>
        Append(new HexNumber(value, format.Length > 1 ? int.Parse(format.AsSpan(1), CultureInfo.InvariantCulture) : 1));

    /// <inheritdoc cref="AppendFormatted(uint, string)"/>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(int value, string format) => AppendFormatted((uint)value, format);

    /// <summary>Adds a voltage.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(Voltage? value) => Append(value);

    /// <summary>Adds a current.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(Current? value) => Append(value);

    /// <summary>Adds a power.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(Power? value) => Append(value);

    /// <summary>Adds an energy.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(PowerDelivery.Units.Energy? value) => Append(value);

    /// <summary>Adds a time.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(Duration value) => Append(value);

    /// <summary>Adds a measured amount.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(Quantity value) => Append(value);

    /// <summary>Adds two voltages.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(VoltageBand value) => Append(value);

    /// <summary>Adds the name of a message.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(MessageKind value) => Append(value);

    /// <summary>Adds SOP, SOP' or another.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(SopKind value) => Append(value);

    /// <summary>Adds a kind of supply.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(PowerObjectKind value) => Append(value);

    /// <summary>Adds editions.</summary>
    [EditorBrowsable(EditorBrowsableState.Never)]
    public void AppendFormatted(Editions value) => Append(value);

    /// <inheritdoc/>
    public bool Equals(Phrase? other) => other is not null && Parts.SequenceEqual(other.Parts);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is Phrase other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode()
    {
        HashCode hash = default;
        foreach (object part in Parts)
        {
            hash.Add(part);
        }

        return hash.ToHashCode();
    }

    /// <summary>In English, for a debugger; who prints it says <see cref="PhraseText"/>.</summary>
    public override string ToString() => PhraseText.Of(this);

    private void AppendParts(Phrase phrase)
    {
        foreach (object part in phrase.Parts)
        {
            Append(part);
        }
    }

    private void Append(object? value)
    {
        if (value is null)
        {
            return;
        }

        if (_count == _parts.Length)
        {
            Array.Resize(ref _parts, 2 * _count);
        }

        _parts[_count++] = value;
    }
}
