namespace Portwitness.Cli.Shell;

/// <summary>What the exit code says; scripts rely on the numbers.</summary>
internal static class ExitCode
{
    /// <summary>Nothing at or above --fail-on.</summary>
    public const int Clean = 0;

    /// <summary>Findings at or above --fail-on.</summary>
    public const int Findings = 1;

    /// <summary>Input that cannot be used, or a command line that cannot be understood.</summary>
    public const int Unusable = 2;

    /// <summary>The service cannot be reached.</summary>
    public const int NoService = 3;

    /// <summary>Stopped from the keyboard, as shells count it.</summary>
    public const int Interrupted = 130;

    /// <summary>Nobody reads the output any more, so that going on would be for nothing; as shells count it.</summary>
    public const int OutputGone = 141;
}
