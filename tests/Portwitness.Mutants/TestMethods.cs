using System.Reflection;
using Xunit.Abstractions;
using Xunit.Sdk;

namespace Portwitness.Mutants;

/// <summary>The tests of an assembly by method, run in this process, where everything is compiled already.</summary>
internal sealed class TestMethods : IDisposable
{
    private readonly ITestFrameworkExecutor _executor;

    /// <summary>Finds the tests: those whose name contains one of these, or all others.</summary>
    public TestMethods(Assembly tests, string[] names, bool areWanted)
    {
        XunitTestFramework framework = new(new Sink());
        Sink found = new();
        framework.GetDiscoverer(Reflector.Wrap(tests)).Find(false, found, new Options());
        found.Ended.WaitOne();
        All =
        [
            .. found.Cases.GroupBy(test => $"{test.TestMethod.TestClass.Class.Name}.{test.TestMethod.Method.Name}")
                .Where(method => names.Any(part => method.Key.Contains(part, StringComparison.Ordinal)) == areWanted)
                .Select(method => (method.Key, method.ToArray())),
        ];
        _executor = framework.GetExecutor(tests.GetName());
    }

    /// <summary>Name and cases of each.</summary>
    public (string Name, ITestCase[] Cases)[] All { get; }

    /// <summary>Runs one until a case fails; whether one did.</summary>
    public bool Fails(int method)
    {
        Sink told = new();
        _executor.RunTests(All[method].Cases, told, new Options());
        told.Ended.WaitOne();
        Problem = told.Problem;
        return told.Failed;
    }

    /// <summary>What the last one that failed said.</summary>
    public string Problem { get; private set; } = "";

    /// <inheritdoc/>
    public void Dispose() => _executor.Dispose();

    private sealed class Options : ITestFrameworkDiscoveryOptions, ITestFrameworkExecutionOptions
    {
        private readonly Dictionary<string, object?> _values = new()
        {
            ["xunit.discovery.PreEnumerateTheories"] = true,
            ["xunit.execution.DisableParallelization"] = true,
            ["xunit.execution.SynchronousMessageReporting"] = true,
        };

        public TValue GetValue<TValue>(string name) => _values.TryGetValue(name, out object? value) ? (TValue)value! : default!;

        public void SetValue<TValue>(string name, TValue value) => _values[name] = value;
    }

    private sealed class Sink : Xunit.LongLivedMarshalByRefObject, IMessageSink
    {
        public List<ITestCase> Cases { get; } = [];

        public ManualResetEvent Ended { get; } = new(false);

        public bool Failed { get; private set; }

        public string Problem { get; private set; } = "";

        public bool OnMessage(IMessageSinkMessage message)
        {
            if (message is ITestCaseDiscoveryMessage discovered)
            {
                Cases.Add(discovered.TestCase);
            }

            if (message is ITestFailed failed)
            {
                Problem = string.Join(' ', failed.Messages);
            }

            Failed |= message is ITestFailed or IErrorMessage or ITestClassCleanupFailure or ITestAssemblyCleanupFailure;
            if (message is IDiscoveryCompleteMessage or ITestAssemblyFinished)
            {
                Ended.Set();
            }

            return !Failed;
        }
    }
}
