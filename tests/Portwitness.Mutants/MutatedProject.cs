using System.Reflection;
using System.Runtime.Loader;
using System.Text.Json;

namespace Portwitness.Mutants;

/// <summary>
/// The mutated assembly: all mutants are compiled into it, and a static field says which one is active. Types and members are
/// those that Stryker.NET adds.
/// </summary>
internal sealed class MutatedProject
{
    public const int None = -1;

    private readonly FieldInfo _active;
    private readonly FieldInfo _capture;
    private readonly MethodInfo _coverage;
    private readonly MethodInfo _reset;

    /// <summary>Loads the assembly of a project, its tests and all that they need from a folder.</summary>
    public MutatedProject(string folder, string project)
    {
        AssemblyLoadContext.Default.Resolving += (context, name) =>
            Path.Combine(folder, name.Name + ".dll") is { } path && File.Exists(path) ? context.LoadFromAssemblyPath(path) : null;
        Assembly mutated = AssemblyLoadContext.Default.LoadFromAssemblyPath(Path.Combine(folder, $"{project}.dll"));
        Tests = AssemblyLoadContext.Default.LoadFromAssemblyPath(Path.Combine(folder, $"{project}.Tests.dll"));
        Type control = mutated.GetTypes().Single(type => type.Name == "MutantControl");
        const BindingFlags any = BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic;
        _active = control.GetField("ActiveMutant", any)!;
        _capture = control.GetField("CaptureCoverage", any)!;
        _coverage = control.GetMethod("GetCoverageData", any)!;
        _reset = control.GetMethod("ResetCoverage", any)!;
    }

    /// <summary>The tests beside it.</summary>
    public Assembly Tests { get; }

    /// <summary>Which mutant is active.</summary>
    public int Active
    {
        set => _active.SetValue(null, value);
    }

    /// <summary>Ids of the mutants that Stryker.NET's report lists as testable.</summary>
    public static IEnumerable<int> ListedIn(string report)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(report));
        return
        [
            .. document.RootElement.GetProperty("files").EnumerateObject()
                .SelectMany(file => file.Value.GetProperty("mutants").EnumerateArray())
                .Where(mutant => mutant.GetProperty("status").GetString() is not ("Ignored" or "CompileError"))
                .Select(mutant => int.Parse(mutant.GetProperty("id").GetString()!, System.Globalization.CultureInfo.InvariantCulture))
                .Order(),
        ];
    }

    /// <summary>The mutants that something runs through.</summary>
    public IReadOnlyCollection<int> CoveredBy(Action run)
    {
        _reset.Invoke(null, null);
        _capture.SetValue(null, true);
        run();
        IList<int>[] covered = (IList<int>[])_coverage.Invoke(null, null)!;
        _capture.SetValue(null, false);
        return [.. covered[0].Distinct()];
    }
}
