using System.CommandLine.Parsing;
using System.Globalization;

namespace Portwitness.Cli.Options;

/// <summary>Dates on the command line: "2026-03-09" begins at midnight UTC, or RFC 3339 with its offset.</summary>
internal static class DateOption
{
    private static readonly string[] Formats = ["yyyy-MM-dd", "yyyy-MM-ddTHH:mm:ssK", "yyyy-MM-ddTHH:mmK", "yyyy-MM-ddTHH:mm:ss.FFFFFFK"];

    public static DateTimeOffset? Read(ArgumentResult result)
    {
        string text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        if (DateTimeOffset.TryParseExact(text, Formats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset time)
            && time >= DateTimeOffset.UnixEpoch)
        {
            return time;
        }

        result.AddError($"'{text}' is no date; expected 2026-03-09 or 2026-03-09T21:04:10Z.");
        return null;
    }
}
