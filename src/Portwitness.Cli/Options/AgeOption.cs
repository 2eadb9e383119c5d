using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace Portwitness.Cli.Options;

/// <summary>An age on the command line: "400d" or "36h".</summary>
internal static class AgeOption
{
    private const int MaxHours = 100 * 366 * 24;

    public static Option<TimeSpan?> Create(string name, string description) => new(name) { Description = description, HelpName = "AGE", CustomParser = Read };

    private static TimeSpan? Read(ArgumentResult result)
    {
        string text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        int hours = text.Length < 2 ? 0 : text[^1] switch { 'h' => 1, 'd' => 24, _ => 0 };
        if (hours > 0 && int.TryParse(text.AsSpan()[..^1], NumberStyles.None, CultureInfo.InvariantCulture, out int count) && count is > 0 and <= MaxHours
            && (long)count * hours <= MaxHours)
        {
            return TimeSpan.FromHours((long)count * hours);
        }

        result.AddError($"'{text}' is no age; expected a number of days or hours, 400d or 36h, of at most a hundred years.");
        return null;
    }
}
