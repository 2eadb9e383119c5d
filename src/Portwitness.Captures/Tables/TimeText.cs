using System.Buffers.Text;
using System.Globalization;
using System.Text;
using Portwitness.Text;

namespace Portwitness.Captures.Tables;

/// <summary>How a time is written.</summary>
internal enum TimeForm
{
    /// <summary>A number of the column's unit.</summary>
    Number,

    /// <summary>A time of day, or one that counts from the beginning: 9:14:07, 14:07.25.</summary>
    Clock,

    /// <summary>Two whole parts, 9:14: hours and minutes, or minutes and seconds.</summary>
    TwoParts,

    /// <summary>A date with a time.</summary>
    Date,
}

/// <summary>Reads times of a table: numbers, times of day (9:14:07.25), or dates with times.</summary>
internal static class TimeText
{
    private const int MaxCharacters = 40;
    private const int MicrosecondPower = 6;
    private const long DayUs = 86_400_000_000;

    /// <summary>Reads a time into microseconds.</summary>
    /// <param name="text">The cell.</param>
    /// <param name="unit">The unit of numbers.</param>
    /// <param name="microseconds">The time; two parts are taken to be minutes and seconds.</param>
    /// <param name="form">How it is written. Of all but numbers only differences mean something.</param>
    public static bool TryRead(ReadOnlySpan<byte> text, TableUnit unit, out long microseconds, out TimeForm form)
    {
        form = TimeForm.Number;
        if (unit.TryRead(text, MicrosecondPower, out microseconds))
        {
            return true;
        }

        form = TimeForm.Clock;
        if (text.Length > MaxCharacters || text.IndexOf((byte)':') < 0)
        {
            return false;
        }

        // Day and month cannot be told apart where the year does not come first.
        bool isYearFirst = text.Length > 10 && !text[..4].ContainsAnyExceptInRange((byte)'0', (byte)'9') && text[4] is (byte)'-' or (byte)'/';
        bool isWhole = text.Count((byte)':') == 1 && !text.ContainsAny((byte)'.', (byte)',');
        form = isYearFirst ? TimeForm.Date : isWhole ? TimeForm.TwoParts : TimeForm.Clock;
        return isYearFirst ? TryDate(text, out microseconds) : TryClock(text, out microseconds);
    }

    private static bool TryClock(ReadOnlySpan<byte> text, out long microseconds)
    {
        microseconds = 0;
        int minutes = text.IndexOf((byte)':');
        int seconds = text[(minutes + 1)..].IndexOf((byte)':') + minutes + 1;
        if (!Utf8Parser.TryParse(text, out uint hour, out int used) || used != minutes)
        {
            return false;
        }

        if (seconds == minutes)
        {
            // m:ss.fff, or h:mm
            return TrySeconds(text[(minutes + 1)..], hour, out microseconds);
        }

        return Utf8Parser.TryParse(text[(minutes + 1)..], out uint minute, out used) && used == seconds - minutes - 1 && minute < 60
            && hour < 10_000 && TrySeconds(text[(seconds + 1)..], (hour * 60) + minute, out microseconds);
    }

    private static bool TrySeconds(ReadOnlySpan<byte> text, uint minutes, out long microseconds)
    {
        bool isRead = DecimalText.TryRead(text, MicrosecondPower, out microseconds) && microseconds is >= 0 and < 60_000_000
            && text.IndexOfAny((byte)'+', (byte)'-') < 0;
        microseconds += 60_000_000L * minutes;
        return isRead && microseconds < 1000 * DayUs;
    }

    private static bool TryDate(ReadOnlySpan<byte> text, out long microseconds)
    {
        bool isDate = DateTimeOffset.TryParse(
            Encoding.UTF8.GetString(text), CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset date);
        microseconds = isDate ? (date.UtcTicks - DateTimeOffset.UnixEpoch.Ticks) / TimeSpan.TicksPerMicrosecond : 0;
        return isDate;
    }
}
