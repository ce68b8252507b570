// Traces rays with Embree's rtcIntersect1 on one thread, for comparison.
//
// usage: rays FILE ROUNDS; FILE holds int32 counts of triangles and rays, then float32 triangles (9 each), then rays
// (origin and direction, 6 each). Prints seconds of CPU time for the fastest round, hits, and the sum of distances.
#include <embree3/rtcore.h>
#include <cmath>
#include <cstdio>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <limits>
#include <vector>
#include <xmmintrin.h>

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  FILE* file = fopen(argv[1], "rb");
  if (!file) return 2;
  int32_t triangles = 0, rays = 0;
  if (fread(&triangles, 4, 1, file) != 1 || fread(&rays, 4, 1, file) != 1) return 2;
  std::vector<float> corners(size_t(triangles) * 9), starts(size_t(rays) * 6);
  if (fread(corners.data(), 4, corners.size(), file) != corners.size()) return 2;
  if (fread(starts.data(), 4, starts.size(), file) != starts.size()) return 2;
  fclose(file);

  // Embree's advice for speed: flush denormals to zero.
  _mm_setcsr(_mm_getcsr() | 0x8040);
  RTCDevice device = rtcNewDevice("threads=1");
  RTCScene scene = rtcNewScene(device);
  rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_HIGH);
  RTCGeometry mesh = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
  auto* vertices = static_cast<float*>(rtcSetNewGeometryBuffer(mesh, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 12, size_t(triangles) * 3));
  memcpy(vertices, corners.data(), corners.size() * 4);
  auto* indices = static_cast<uint32_t*>(rtcSetNewGeometryBuffer(mesh, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 12, size_t(triangles)));
  for (uint32_t i = 0; i < uint32_t(triangles) * 3; i++) indices[i] = i;
  rtcCommitGeometry(mesh);
  rtcAttachGeometry(scene, mesh);
  rtcCommitScene(scene);

  double fastest = 1e30, sum = 0;
  int hits = 0;
  for (int round = 0; round < atoi(argv[2]); round++) {
    sum = 0;
    hits = 0;
    const clock_t begin = clock();
    for (int32_t i = 0; i < rays; i++) {
      const float* s = &starts[size_t(i) * 6];
      RTCIntersectContext context;
      rtcInitIntersectContext(&context);
      RTCRayHit ray;
      ray.ray.org_x = s[0];
      ray.ray.org_y = s[1];
      ray.ray.org_z = s[2];
      ray.ray.dir_x = s[3];
      ray.ray.dir_y = s[4];
      ray.ray.dir_z = s[5];
      ray.ray.tnear = 0;
      ray.ray.tfar = std::numeric_limits<float>::infinity();
      ray.ray.time = 0;
      ray.ray.mask = ~0u;
      ray.ray.id = 0;
      ray.ray.flags = 0;
      ray.hit.geomID = RTC_INVALID_GEOMETRY_ID;
      ray.hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
      rtcIntersect1(scene, &context, &ray);
      if (ray.hit.geomID != RTC_INVALID_GEOMETRY_ID) {
        hits++;
        sum += ray.ray.tfar;
      }
    }
    const double used = double(clock() - begin) / CLOCKS_PER_SEC;
    if (used < fastest) fastest = used;
  }
  printf("{\"seconds\": %.6f, \"hits\": %d, \"sum\": %.6f}\n", fastest, hits, sum);
  rtcReleaseScene(scene);
  rtcReleaseDevice(device);
}
