using System.CommandLine;

namespace Portwitness.Cli.Options;

/// <summary>Helps arguments not to swallow mistyped options.</summary>
internal static class Arguments
{
    /// <summary>Refuses a value that looks like an option; "-" is standard input.</summary>
    public static Argument<T> RefuseOptions<T>(this Argument<T> argument)
    {
        argument.Validators.Add(result =>
        {
            foreach (string value in result.Tokens.Select(token => token.Value).Where(value => value is ['-', _, ..]))
            {
                result.AddError($"there is no option '{value}'; for a file of that name write ./{value}.");
            }
        });
        return argument;
    }
}
