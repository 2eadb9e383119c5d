using System.CommandLine;
using System.Globalization;

namespace Portwitness.Cli.Options;

/// <summary>An option that takes a whole number between two others.</summary>
internal static class NumberOption
{
    public static Option<int> Create(string name, string description, int usual, int least, int most, string unit = "COUNT")
    {
        Option<int> option = new(name) { Description = description, DefaultValueFactory = _ => usual, HelpName = unit };
        option.Validators.Add(result =>
        {
            if (result.Errors.Any())
            {
                return;
            }

            if (result.GetValueOrDefault<int>() is var value && (value < least || value > most))
            {
                result.AddError(string.Create(CultureInfo.InvariantCulture, $"{name} takes {least} to {most}."));
            }
        });
        return option;
    }
}
