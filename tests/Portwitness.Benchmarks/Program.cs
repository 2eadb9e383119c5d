using BenchmarkDotNet.Running;
using Portwitness.Benchmarks;

if (args is ["read-jsonl"])
{
    JsonLinesReading.ReadOnce();
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(JsonLinesReading).Assembly).Run(args);
